import { toPlane, type Frame } from '../geometry/frame.js';
import { areaVector, signedArea } from '../geometry/polygon.js';
import { scale, unit } from '../geometry/vec.js';
import { memo, memoBy } from '../cache/memo.js';
import type { Panel } from '../model/tub.js';
import { faceFaultOf, frameOfPanel } from './face-faults.js';
import type { Face } from './shape.js';

/** What a panel alone says of its face. */
export type PanelFace = Pick<Face, 'name' | 'usable' | 'frame' | 'corners' | 'outline' | 'panelEdge' | 'area'>;

/** The panel seen from the one side or the other: 1 when its corners run counter-clockwise. Kept by the panel. */
export const panelFace = (panel: Panel, turn: 1 | -1): PanelFace => bothFaces(panel)[turn === 1 ? 0 : 1]();

const bothFaces = memoBy((panel: Panel) => [memo(() => faceOf(panel, 1)), memo(() => faceOf(panel, -1))] as const);

const UNUSABLE = { u: [1, 0, 0], v: [0, 1, 0], normal: [0, 0, 1] } as const;

const faceOf = (panel: Panel, turn: 1 | -1): PanelFace => {
  const usable = faceFaultOf(panel, 0) === undefined;
  const n = panel.corners.length;
  const order = panel.corners.map((_, i) => (turn === 1 ? i : (n - i) % n));
  const corners = order.map((i) => panel.corners[i]);
  const frame: Frame = usable
    ? frameOfPanel(corners, unit(scale(areaVector(panel.corners), turn)))
    : { origin: corners[0] ?? [0, 0, 0], ...UNUSABLE };
  const outline = corners.map((corner) => toPlane(frame, corner));
  return {
    name: panel.name,
    usable,
    frame,
    corners,
    outline,
    panelEdge: order.map((_, i) => (turn === 1 ? i : n - 1 - i)),
    area: usable ? Math.abs(signedArea(outline)) : 0,
  };
};
