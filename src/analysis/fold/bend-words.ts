/** One wording of a bend for hovers, views and lists, so that no two of them can be read as two bends. */
import { fixed, inDeg, toDeg } from '../model/wording.js';
import type { SheetSide } from '../model/marked.js';
import type { FlatBend, FlatPattern } from './flat-pattern.js';

/**
 * What the gauge reads and between which panels: it is zeroed on the one and laid on the other, after release. That is the
 * turn from flat; the angle between the faces is told beside it, because a protractor between them shows that.
 * `within`: to which bends are held, rad.
 */
export const gaugeWords = (angle: number, [from, to]: Gauged, within?: number): string =>
  `${inDeg(angle)}${within === undefined ? '' : ` ± ${inDeg(within)}`} from flat: a gauge zeroed on ${from} reads that on ${to}, and ${inDeg(Math.PI - angle)} lie between their faces`;

/** Names of the two panels that a gauge is laid on. */
export type Gauged = readonly [string, string];

/** Of a bend of a flat. */
export const gaugedOn = ({ panels }: FlatPattern, { parent, child }: Pick<FlatBend, 'parent' | 'child'>): Gauged => [
  panels[parent].name,
  panels[child].name,
];

/** `86.0\u00b0`: what a gauge reads, to the tenth that it shows, beside a line of a drawing or of a sheet. */
export const gaugeMark = (angle: number): string => `${fixed(toDeg(angle), 1)}\u00b0`;

/** Up and down as the flat is drawn and lettered. */
export const turnWords = (direction: FlatBend['direction'], up: SheetSide): string =>
  `${direction}, seen ${up} side up`;
