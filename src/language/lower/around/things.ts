import { keepBy } from '../../../analysis/cache/memo.js';
import type { Drawing, DrawnLayer } from '../../../analysis/model/drawing.js';
import type { Thing, ThingMesh } from '../../../analysis/model/tub.js';
import { extrudeOutlines } from '../../../analysis/solid/bodies/extrude-drawing.js';
import { longestSideOf, placeThing, type ThingPlace } from '../../../analysis/solid/bodies/place-thing.js';
import type { ExistingFile } from '../../generated/ast.js';
import { asDimension } from '../values/coerce.js';
import type { Lowering } from '../lowering.js';
import { placeOf, UNITS } from '../panels/thing-place.js';

/** mm. A thing that is smaller all round was drawn in another unit: nobody builds a tub around a grain. */
const UNLIKELY_SMALL = 10;

/** The thing of a file where the statement puts it; undefined, and reported, where the file gives none. */
export const thingOf = (lowering: Lowering, node: ExistingFile, group: number): Thing | undefined => {
  const held = lowering.things.get(node);
  const place = placeOf(lowering, node, typeof held === 'object' && 'layers' in held ? held.unit : undefined);
  const at = lowering.idOf(node, 'path');
  if (held === undefined || node.path === undefined) return undefined;
  const file = `"${node.path}"`;
  if (held === 'missing') {
    lowering.reports.add('existing/missing-file', at, `${file} is not there; \`from\` needs a file that exists`);
    return undefined;
  }
  if ('fault' in held) {
    lowering.reports.add(
      'existing/not-readable',
      at,
      `${file} ${held.fault}; it needs ${held.needs ?? 'to be written anew'}`,
    );
    return undefined;
  }
  const mesh =
    'layers' in held ? extruded(lowering, node, held) : unextruded(lowering, node, 'mesh' in held ? held.mesh : held);
  if (!place || !mesh) return undefined;
  const side = longestSideOf(mesh) * place.unit;
  if (
    node.unit.length === 0 &&
    !node.path.endsWith('.tub') &&
    side < UNLIKELY_SMALL &&
    !('layers' in held && held.unit !== undefined)
  ) {
    lowering.reports.add(
      'existing/unlikely-unit',
      at,
      `${file} is ${side.toPrecision(3)} mm long at its longest; its file names no unit and is taken to be in mm: state \`in m\` or \`in in\` if it is`,
    );
  }
  if (!mesh.isClosed) {
    lowering.reports.add(
      'existing/open-surface',
      at,
      `The surface of ${file} is not closed, so it has no inside: distances to it are known, and what lies wholly within it is not found`,
    );
  }
  return { name: node.name ?? '?', at: lowering.idOf(node), group, mesh: placed(mesh, place) };
};

/** Only of a drawing has a layer, and how far it is drawn out, a meaning. */
const unextruded = (lowering: Lowering, node: ExistingFile, mesh: ThingMesh): ThingMesh => {
  const [word, property] = node.by.length > 0 ? ['by', 'by'] : ['layer', 'layer'];
  if (node.by.length + node.layer.length > 0)
    lowering.reports.add(
      'text/wrong-kind',
      lowering.idOf(node, property),
      `\`${word}\` is for drawings (DXF); "${node.path}" has its own depth, so it needs none`,
    );
  return mesh;
};

const extrudedFor = keepBy<DrawnLayer, ThingMesh>();

/** The closed lines of one layer, drawn out; undefined, and reported, where the statement or the drawing leaves that open. */
const extruded = (lowering: Lowering, node: ExistingFile, drawing: Drawing): ThingMesh | undefined => {
  const file = `"${node.path}"`;
  const at = lowering.idOf(node, 'path');
  const stated = lowering.only(node, 'layer', node.layer);
  const depth = lowering.only(node, 'by', node.by);
  const by = depth && asDimension(lowering, depth, 'length', 'Depth of the drawing');
  if (!depth)
    lowering.reports.add(
      'existing/not-readable',
      at,
      `${file} is a drawing, which has no depth; it needs one such as \`by 90\``,
    );
  const filled = [...drawing.layers].filter(([, { outlines }]) => outlines.length > 0).map(([name]) => name);
  const name = stated ?? (filled.length === 1 ? filled[0] : undefined);
  const layer = name === undefined ? undefined : drawing.layers.get(name);
  if (!layer || layer.outlines.length === 0) {
    const has =
      filled.length === 0 ? 'it has none on any layer' : `they are on ${filled.map((each) => `"${each}"`).join(', ')}`;
    const what =
      stated === undefined
        ? `${file} leaves open which lines are meant`
        : `${file} has no closed lines on layer "${stated}"`;
    lowering.reports.add(
      'existing/not-readable',
      at,
      `${what}; ${has}${filled.length > 0 ? ', so it needs one of these as `layer`' : ''}`,
    );
    return undefined;
  }
  if (layer.open + layer.curves > 0) {
    const { open, curves } = layer;
    const left = [
      ...(open > 0 ? [open === 1 ? '1 line that does not close' : `${open} lines that do not close`] : []),
      ...(curves > 0 ? [curves === 1 ? '1 spline, ellipse or block' : `${curves} splines, ellipses or blocks`] : []),
    ];
    lowering.reports.add(
      'existing/left-out',
      at,
      `Of layer "${name}" of ${file} ${left.join(' and ')} ${open + curves === 1 ? 'is' : 'are'} left out; only closed lines and arcs are taken`,
      { values: { open_count: open, curve_count: curves } },
    );
  }
  if (by === 0)
    lowering.reports.add(
      'value/out-of-range',
      lowering.idOf(node, 'by'),
      'Depth of the drawing is 0 mm; it needs to be more, or less than 0 to be drawn out downwards',
    );
  if (by === undefined || by === 0) return undefined;
  const unitWord = node.unit[0];
  const unit = unitWord ? UNITS[unitWord] : (drawing.unit ?? 1);
  return extrudedFor(layer, [by / unit], () => extrudeOutlines(layer.outlines, by / unit));
};

const placedFor = keepBy<ThingMesh, ThingMesh>();

/** The same object while mesh and place are. */
const placed = (mesh: ThingMesh, place: ThingPlace): ThingMesh =>
  placedFor(mesh, [place.unit, ...place.at, ...place.turns.flatMap(({ axis, angle }) => [axis, angle])], () =>
    placeThing(mesh, place),
  );
