/** Files of drawn lines (DXF, as text) as closed outlines by layer. */
import dxfParser, { type IDxf, type IEntity } from 'dxf-parser';
import { circleContour, flattenContour, reverseLine, type ContourVertex } from '../../analysis/geometry/contour.js';
import type { Vec2 } from '../../analysis/geometry/vec.js';
import type { Drawing, DrawnLayer } from '../../analysis/model/drawing.js';
import { limits } from '../../analysis/model/limits.js';
import type { MeshFault } from '../../analysis/solid/bodies/read-stl.js';

/** Its types describe another module layout than its code has: the default export is the class itself. */
const Parser = dxfParser as unknown as new () => { parseSync: (text: string) => IDxf | null };

/** mm in one of the units that `$INSUNITS` names. Source: DXF reference, header variables (from memory). */
const UNITS: Readonly<Record<number, number>> = { 1: 25.4, 2: 304.8, 4: 1, 5: 10, 6: 1000 };

/** mm. Arcs are taken as chords this close to them, and ends nearer than this meet. */
const FINENESS = 0.05;
const MEET = 0.01;

/** Never throws: what cannot be read says why. Blocks are not taken apart. Cost: O(n) about in lines. */
export const readDxf = (bytes: Uint8Array): Drawing | MeshFault => {
  if (bytes.length === 0) return { fault: 'is empty' };
  const text = new TextDecoder().decode(bytes);
  if (text.startsWith('AutoCAD Binary DXF')) return { fault: 'is a binary DXF file; it needs to be saved as text' };
  if (!/^\s*0\s*[\r\n]+\s*SECTION\b/m.test(text)) return { fault: 'is no DXF file: it has no SECTION' };
  if (!/^\s*0\s*[\r\n]+\s*EOF\s*$/m.test(text)) return { fault: 'is cut off: it has no EOF' };
  const plain = plainPart(text);
  if (typeof plain === 'object') return plain;
  let read: IDxf | null;
  try {
    read = new Parser().parseSync(plain);
  } catch {
    return { fault: 'is no whole DXF file' };
  }
  const entities = (read?.entities ?? []) as readonly AnyEntity[];
  const unit = UNITS[Number(read?.header?.$INSUNITS)];
  const layers = new Map<string, DrawnLayer>();
  let corners = 0;
  for (const name of new Set(entities.map(({ layer }) => layer ?? '0'))) {
    const layer = layerOf(entities.filter((each) => (each.layer ?? '0') === name), unit ?? 1); // prettier-ignore
    corners += layer.outlines.reduce((sum, outline) => sum + outline.length, 0);
    layers.set(name, layer);
  }
  if (corners > limits.triangles.atMost)
    return { fault: `holds lines of ${corners} corners; it needs at most ${limits.triangles.atMost}` };
  return { unit, layers };
};

/** Of the heading the unit, of the entities what places them: the reader prints what it does not know, and that is nobody's to see. */
const plainPart = (text: string): string | MeshFault => {
  const lines = text.split(/\r\n|\r|\n/);
  const kept: string[] = [];
  let [section, variable] = ['', ''];
  for (let i = 0; i + 1 < lines.length; i += 2) {
    const code = /^\s*\d+\s*$/.test(lines[i]) ? Number(lines[i]) : NaN;
    const value = lines[i + 1].trim();
    if (Number.isNaN(code)) {
      if (lines[i].trim() === '' && lines.slice(i).every((line) => line.trim() === '')) break;
      return { fault: `is no whole DXF file: line ${i + 1} is no group code` };
    }
    if (code === 0) [section, variable] = [value === 'SECTION' || value === 'ENDSEC' ? '' : section, ''];
    else if (code === 2 && section === '') section = value;
    else if (code === 9) variable = value;
    const isUnit = section === 'HEADER' && variable === '$INSUNITS' && code === 70;
    if (isUnit) kept.push('0', 'SECTION', '2', 'HEADER', '9', variable, '70', value, '0', 'ENDSEC');
    if (section === 'ENTITIES' && PLACING.has(code) && value !== 'ENTITIES') kept.push(String(code), value);
  }
  const heading = kept.indexOf('HEADER') < 0 ? 0 : kept.indexOf('ENDSEC') + 1;
  return [...kept.slice(0, heading), '0', 'SECTION', '2', 'ENTITIES', ...kept.slice(heading), '0', 'ENDSEC', '0', 'EOF', ''].join('\n'); // prettier-ignore
};

/** Group codes of type, layer, points, radii, angles, bulges, counts and flags. */
const PLACING = new Set([0, 8, 10, 20, 11, 21, 40, 42, 50, 51, 66, 70, 71, 72, 73, 74, 90]);

interface Point {
  readonly x: number;
  readonly y: number;
  readonly bulge?: number;
}

interface AnyEntity extends IEntity {
  readonly vertices?: readonly Point[];
  readonly shape?: boolean;
  readonly center?: Point;
  readonly radius?: number;
  readonly startAngle?: number;
  readonly endAngle?: number;
}

type Path = readonly ContourVertex[];

const CURVES = new Set(['SPLINE', 'ELLIPSE', 'INSERT']);

const layerOf = (entities: readonly AnyEntity[], unit: number): DrawnLayer => {
  const [closed, open]: [Path[], Path[]] = [[], []];
  let curves = 0;
  for (const entity of entities) {
    if (CURVES.has(entity.type)) curves++;
    const path = pathOf(entity);
    if (!path || path.length < 2 || !path.every(({ x, y, bulge }) => Number.isFinite(x + y + bulge))) continue;
    (entity.type === 'CIRCLE' || entity.shape === true ? closed : open).push(path);
  }
  const joined = joinEnds(open, MEET / unit);
  const outlines = [...closed, ...joined.closed]
    .map((path) => flattenContour(path, FINENESS / unit))
    .filter((outline) => outline.length >= 3);
  return { outlines, open: joined.open, curves };
};

const pathOf = ({ type, vertices, center, radius = 0, startAngle = 0, endAngle = 0 }: AnyEntity): Path | undefined => {
  if (type === 'LINE' || type === 'LWPOLYLINE' || type === 'POLYLINE')
    return vertices?.map(({ x, y, bulge = 0 }) => ({ x, y, bulge }));
  if (!center || !(radius > 0)) return undefined;
  if (type === 'CIRCLE') return circleContour([center.x, center.y], radius);
  if (type !== 'ARC') return undefined;
  const sweep = (endAngle - startAngle + 4 * Math.PI) % (2 * Math.PI);
  const at = (angle: number): Vec2 => [center.x + radius * Math.cos(angle), center.y + radius * Math.sin(angle)];
  const [[x0, y0], [x1, y1]] = [at(startAngle), at(startAngle + sweep)];
  return [
    { x: x0, y: y0, bulge: Math.tan(sweep / 4) },
    { x: x1, y: y1, bulge: 0 },
  ];
};

/** Lines whose ends meet as one; those that come round to their start are closed, and end before it. */
const joinEnds = (
  paths: readonly Path[],
  meet: number,
): { readonly closed: readonly Path[]; readonly open: number } => {
  const waiting = new Set(paths);
  const cells = new Map<string, Path[]>();
  const cellOf = (value: number): number => Math.round(value / (4 * meet));
  for (const path of paths)
    for (const end of [path[0], path[path.length - 1]]) {
      const key = `${cellOf(end.x)} ${cellOf(end.y)}`;
      cells.set(key, [...(cells.get(key) ?? []), path]);
    }
  const meets = (a: ContourVertex, b: ContourVertex): boolean => Math.hypot(a.x - b.x, a.y - b.y) <= meet;
  const nextAt = (end: ContourVertex): Path | undefined => {
    for (const i of [0, -1, 1])
      for (const k of [0, -1, 1])
        for (const path of cells.get(`${cellOf(end.x) + i} ${cellOf(end.y) + k}`) ?? []) {
          if (!waiting.has(path)) continue;
          if (meets(path[0], end) || meets(path[path.length - 1], end)) return path;
        }
    return undefined;
  };
  const closed: Path[] = [];
  let open = 0;
  for (const first of paths) {
    if (!waiting.delete(first)) continue;
    let chain = first;
    while (!meets(chain[0], chain[chain.length - 1])) {
      const end = chain[chain.length - 1];
      const next = nextAt(end);
      if (!next) break;
      waiting.delete(next);
      chain = [...chain.slice(0, -1), ...(meets(next[0], end) ? next : reverseLine(next))];
    }
    if (chain.length > 2 && meets(chain[0], chain[chain.length - 1])) closed.push(chain.slice(0, -1));
    else open++;
  }
  return { closed, open };
};
