import type { Vec3 } from '../../../analysis/geometry/vec.js';
import { wetNormals } from '../../../analysis/shape/contact/orient.js';
import { isFlange } from '../../generated/ast.js';
import type { Lowering } from '../lowering.js';
import { panelNodes } from './panel-nodes.js';
import { nameOf } from '../references.js';
import type { PanelNode } from '../values/values.js';

/** The wet side of a panel: what its statement implies, else what the panels around it do. */
export const wetNormalOf = (lowering: Lowering, node: PanelNode): Vec3 | undefined => {
  const stated = lowering.solve.faceOf(lowering, node)?.facing;
  if (stated) return stated;
  const around = lowering.once(lowering.files[0], 'the wet sides of all panels', () => normalsByNode(lowering));
  const normal = around?.get(node);
  if (around && !normal) {
    lowering.reports.add(
      'flange/no-wet-side',
      lowering.idOf(node),
      `Panel \`${nameOf(node)}\` shows no wet side, so its flange has no side to turn to`,
      { about: [nameOf(node)] },
    );
  }
  return normal;
};

const normalsByNode = (lowering: Lowering): ReadonlyMap<PanelNode, Vec3> => {
  const known = [...panelNodes(lowering)].flatMap((node) => {
    const face = isFlange(node) ? undefined : lowering.solve.faceOf(lowering, node);
    return face ? [{ node, face }] : [];
  });
  const normals = wetNormals(
    known.map(({ node, face }) => ({
      ...face,
      name: nameOf(node),
      at: lowering.idOf(node),
      sheet: 0,
      kind: { kind: 'points' },
    })),
  );
  return new Map(known.flatMap(({ node }, i) => (normals[i] ? [[node, normals[i]] as const] : [])));
};
