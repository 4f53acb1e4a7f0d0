import { keepBy } from '../../analysis/cache/memo.js';
import type { Thing, ThingMesh } from '../../analysis/model/tub.js';
import { longestSideOf, placeThing, type ThingPlace } from '../../analysis/solid/place-thing.js';
import type { ExistingFile } from '../generated/ast.js';
import { asAngle, asPoint } from './values/coerce.js';
import type { Lowering } from './lowering.js';

/** mm in one of them. */
const UNITS = { mm: 1, cm: 10, m: 1000, in: 25.4, ft: 304.8 } as const;

/** mm. A thing that is smaller all round was drawn in another unit: nobody builds a tub around a grain. */
const UNLIKELY_SMALL = 10;

/** The thing of a file where the statement puts it; undefined, and reported, where the file gives none. */
export const thingOf = (lowering: Lowering, node: ExistingFile, group: number): Thing | undefined => {
  const place = placeOf(lowering, node);
  const held = lowering.things.get(node);
  const at = lowering.idOf(node, 'path');
  if (held === undefined || node.path === undefined) return undefined;
  const file = `"${node.path}"`;
  if (held === 'missing') {
    lowering.reports.add('existing/missing-file', at, `${file} is not there; \`from\` needs a file that exists`);
    return undefined;
  }
  if ('fault' in held) {
    lowering.reports.add('existing/not-readable', at, `${file} ${held.fault}; it needs to be written anew`);
    return undefined;
  }
  if (!place) return undefined;
  const side = longestSideOf(held) * place.unit;
  if (node.unit.length === 0 && !node.path.endsWith('.tub') && side < UNLIKELY_SMALL) {
    lowering.reports.add(
      'existing/unlikely-unit',
      at,
      `${file} is ${side.toPrecision(3)} mm long at its longest; an STL file names no unit and is taken to be in mm: state \`in m\` or \`in in\` if it is`,
    );
  }
  if (!held.isClosed) {
    lowering.reports.add(
      'existing/open-surface',
      at,
      `The surface of ${file} is not closed, so it has no inside: distances to it are known, and what lies wholly within it is not found`,
    );
  }
  return { name: node.name ?? '?', at: lowering.idOf(node), group, mesh: placed(held, place) };
};

const placeOf = (lowering: Lowering, node: ExistingFile): ThingPlace | undefined => {
  const stated = lowering.only(node, 'place', node.place, 'at');
  const unit = UNITS[lowering.only(node, 'unit', node.unit, 'in') ?? 'mm'];
  const at = stated ? asPoint(lowering, stated, 'Place of the thing') : ([0, 0, 0] as const);
  const turns = node.turns.flatMap(({ angle, axis }) => {
    const turn = asAngle(lowering, angle, 'Turn of the thing');
    return turn === undefined || axis === undefined ? [] : [{ axis, angle: turn }];
  });
  return at && turns.length === node.turns.length ? { unit, turns, at } : undefined;
};

const placedFor = keepBy<ThingMesh, ThingMesh>();

/** The same object while mesh and place are. */
const placed = (mesh: ThingMesh, place: ThingPlace): ThingMesh =>
  placedFor(mesh, [place.unit, ...place.at, ...place.turns.flatMap(({ axis, angle }) => [axis, angle])], () =>
    placeThing(mesh, place),
  );
