/** Panels of a tub that is taken as an existing thing: `machine.deck`. */
import { AstUtils, type AstNode } from 'langium';
import { placeDirection, placePoint } from '../../../analysis/solid/bodies/place-thing.js';
import { isExistingFile, isRef, type ExistingFile, type Panel } from '../../generated/ast.js';
import type { Lowering } from '../lowering.js';
import { computedCorners } from './corners.js';
import { targetOf } from '../references.js';
import type { Face } from '../values/values.js';
import { thingOfPlaced } from './placed-nodes.js';
import { placeOf } from './thing-place.js';

/** Those that the files refer to, in the order in which they do. */
export const placedPanelsIn = (lowering: Lowering): readonly Panel[] => {
  if (![...lowering.things.values()].some((held) => typeof held === 'object' && 'mesh' in held)) return [];
  const found = new Set<Panel>();
  for (const file of lowering.files)
    for (const node of AstUtils.streamAst(file) as Iterable<AstNode>) {
      if (!isRef(node) || !isExistingFile(node.target?.ref)) continue;
      const target = targetOf(node);
      if (target?.$type === 'Panel' && thingOfPlaced(target)) found.add(target);
    }
  return [...found];
};

/** Its face where the thing stands, its wet side as in its own file; undefined where the thing or the panel cannot be placed. */
export const placedFace = (lowering: Lowering, thing: ExistingFile, node: Panel): Face | undefined => {
  const found = heldPanel(lowering, thing, node);
  const place = found && placeOf(lowering, thing, undefined);
  if (!found || !place) return undefined;
  const { panel, face } = found;
  return {
    ...computedCorners(
      panel.corners.map((corner) => placePoint(corner, place)),
      lowering.idOf(thing),
    ),
    edgeNames: panel.edgeNames,
    facing: placeDirection(face.frame.normal, place),
    isMetalStated: true,
  };
};

/** The sheet that it is made of. */
export const placedSheet = (lowering: Lowering, thing: ExistingFile, node: Panel) =>
  heldPanel(lowering, thing, node)?.sheet;

const heldPanel = (lowering: Lowering, thing: ExistingFile, node: Panel) => {
  const held = lowering.things.get(thing);
  if (typeof held !== 'object' || !('mesh' in held)) return undefined;
  const index = held.panels.findIndex(({ name }) => name === node.name);
  const [panel, face] = [held.panels[index], held.faces[index]];
  return panel && face?.usable ? { panel, face, sheet: held.sheets[panel.sheet] } : undefined;
};
