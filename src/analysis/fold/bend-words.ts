/** One wording of a bend for hovers, views and lists, so that no two of them can be read as two bends. */
import { inDeg } from '../model/wording.js';
import type { SheetSide } from '../model/marked.js';
import type { FlatBend } from './flat-pattern.js';

/**
 * What the gauge reads and between which panels: it is zeroed on the one and laid on the other, after release. That is the
 * turn from flat; the angle between the faces is told beside it, because a protractor between them shows that.
 */
export const gaugeWords = (angle: number, from: string, to: string): string =>
  `${inDeg(angle)} from flat: a gauge zeroed on ${from} reads that on ${to}, and ${inDeg(Math.PI - angle)} lie between their faces`;

/** Up and down as the flat is drawn and lettered. */
export const turnWords = (direction: FlatBend['direction'], up: SheetSide): string =>
  `${direction}, seen ${up} side up`;
