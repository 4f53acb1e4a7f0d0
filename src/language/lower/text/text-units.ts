import type { LangiumDocument } from 'langium';
import { wordsIn, type TextUnits } from '../../../analysis/model/in-inches.js';
import { isUnits, type TubFile } from '../../generated/ast.js';

/** The units that a text is written in, and is spoken of in: what its `units` line says, else millimetres. */
export const unitsOf = ({ parseResult }: LangiumDocument): TextUnits =>
  ((parseResult.value as TubFile).statements ?? []).find(isUnits)?.unit === 'in' ? 'in' : 'mm';

/** Words about a text in its own units. */
export const wordsFor = (document: LangiumDocument, words: string): string => wordsIn(unitsOf(document), words);
