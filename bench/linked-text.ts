import { EmptyFileSystem, URI } from 'langium';
import type { Tub } from '../src/analysis/model/tub.js';
import type { TubDocument } from '../src/language/lower/text/sources.js';
import { lower } from '../src/language/lower/to-model.js';
import { createTubServices } from '../src/language/tub-module.js';
import { tubText, type Variant } from './tub-text.js';

const { shared, tub } = createTubServices(EmptyFileSystem);
let count = 0;

export const parser = tub.parser.LangiumParser;

/** A document read and linked, as after a keystroke. */
export const linked = async (text: string): Promise<TubDocument> => {
  const document = shared.workspace.LangiumDocumentFactory.fromString(text, URI.parse(`memory:/bench${count++}.tub`));
  shared.workspace.LangiumDocuments.addDocument(document);
  await shared.workspace.DocumentBuilder.build([document], { validation: false });
  shared.workspace.LangiumDocuments.deleteDocument(document.uri);
  return document as TubDocument;
};

export const lowered = async (text: string): Promise<Tub> => lower([await linked(text)]).tub;

export const loweredTub = async (panels: number, variant?: Variant): Promise<Tub> => lowered(tubText(panels, variant));
