/**
 * A strict reader of the drawing exchange format, written from its published structure and sharing no code with the
 * writer: throws on anything a careful program would stumble over. Reads only what flat patterns use.
 */
export interface DxfVertex {
  readonly x: number;
  readonly y: number;
  readonly bulge: number;
}

export type DxfEntity = { readonly layer: string; readonly handle: string } & (
  | { readonly type: 'LWPOLYLINE'; readonly vertices: readonly DxfVertex[]; readonly closed: boolean }
  | { readonly type: 'LINE'; readonly from: readonly [number, number]; readonly to: readonly [number, number] }
  | { readonly type: 'CIRCLE'; readonly center: readonly [number, number]; readonly radius: number }
  | { readonly type: 'TEXT'; readonly at: readonly [number, number]; readonly height: number; readonly text: string }
);

export interface DxfFile {
  readonly comments: readonly string[];
  readonly header: Readonly<Record<string, readonly Tag[]>>;
  readonly layers: readonly string[];
  readonly entities: readonly DxfEntity[];
  readonly handles: readonly string[];
}

interface Tag {
  readonly code: number;
  readonly value: string;
}

const isReal = (code: number): boolean =>
  (code >= 10 && code <= 59) || (code >= 110 && code <= 149) || (code >= 210 && code <= 239);
const isWhole = (code: number): boolean =>
  (code >= 60 && code <= 99) ||
  (code >= 170 && code <= 179) ||
  (code >= 270 && code <= 289) ||
  (code >= 370 && code <= 389);

const demand: (holds: boolean, complaint: string) => asserts holds = (holds, complaint) => {
  if (!holds) throw new Error(`DXF: ${complaint}`);
};

const tagsOf = (text: string): Tag[] => {
  demand(!/[^\n\u0020-\u007e\u00a0-\uffff]/.test(text), 'a control character');
  demand(text.endsWith('\n'), 'no line end after the last value');
  const lines = text.slice(0, -1).split('\n');
  demand(lines.length % 2 === 0, 'codes and values do not alternate');
  const tags: Tag[] = [];
  for (let i = 0; i < lines.length; i += 2) {
    demand(/^ *\d+$/.test(lines[i]), `line ${i + 1} is no group code: ${lines[i]}`);
    const tag = { code: Number(lines[i]), value: lines[i + 1] };
    if (isReal(tag.code))
      demand(/^-?\d+(\.\d+)?$/.test(tag.value) && tag.value !== '-0', `line ${i + 2} is no plain number: ${tag.value}`);
    if (isWhole(tag.code)) demand(/^-?\d+$/.test(tag.value), `line ${i + 2} is no whole number: ${tag.value}`);
    tags.push(tag);
  }
  const last = tags.at(-1);
  demand(last?.code === 0 && last.value === 'EOF', 'does not end with EOF');
  return tags.slice(0, -1);
};

const sectionsOf = (tags: readonly Tag[]): Map<string, Tag[]> => {
  const sections = new Map<string, Tag[]>();
  let i = 0;
  while (i < tags.length) {
    demand(
      tags[i].code === 0 && tags[i].value === 'SECTION' && tags[i + 1]?.code === 2,
      'something outside of a section',
    );
    const end = tags.findIndex((tag, at) => at > i && tag.code === 0 && tag.value === 'ENDSEC');
    demand(end > 0, 'a section without end');
    demand(!sections.has(tags[i + 1].value), `two sections ${tags[i + 1].value}`);
    sections.set(tags[i + 1].value, tags.slice(i + 2, end));
    i = end + 1;
  }
  return sections;
};

/** Cuts a list of tags before every tag with that code. */
const splitAt = (tags: readonly Tag[], code: number): Tag[][] => {
  const pieces: Tag[][] = [];
  for (const tag of tags) {
    if (tag.code === code) pieces.push([]);
    demand(pieces.length > 0, `a section begins with code ${tag.code}`);
    pieces[pieces.length - 1].push(tag);
  }
  return pieces;
};

const valueOf = (tags: readonly Tag[], code: number): string => {
  const found = tags.filter((tag) => tag.code === code);
  demand(found.length === 1, `code ${code} stands ${found.length} times in ${tags[0].value}`);
  return found[0].value;
};
/**
 * Do two edges of a closed line that do not follow one another cross? Arcs count as chords of 64 pieces. Ends that lie on the
 * other edge, to a rounding of the file, do not cross it: a slit may close up to a line.
 */
const crossesItself = (vertices: readonly DxfVertex[]): boolean => {
  const points = vertices.flatMap((a, i) => chordsOf(a, vertices[(i + 1) % vertices.length]));
  const n = points.length;
  const order = points.map((_, i) => i).sort((p, q) => leftOf(points, p) - leftOf(points, q));
  const side = (a: readonly number[], b: readonly number[], p: readonly number[]): number => {
    const cross = (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);
    return cross / Math.max(Math.hypot(b[0] - a[0], b[1] - a[1]), 1e-9);
  };
  let active: number[] = [];
  for (const i of order) {
    const [a, b] = [points[i], points[(i + 1) % n]];
    active = active.filter((j) => Math.max(points[j][0], points[(j + 1) % n][0]) >= leftOf(points, i));
    for (const j of active) {
      if ((i + 1) % n === j || (j + 1) % n === i) continue;
      const [c, d] = [points[j], points[(j + 1) % n]];
      const [p, q, r, s] = [side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)];
      const apart = 3e-6;
      if (p * q < 0 && r * s < 0 && Math.min(...[p, q, r, s].map(Math.abs)) > apart) return true;
    }
    active.push(i);
  }
  return false;
};

const leftOf = (points: readonly (readonly [number, number])[], i: number): number =>
  Math.min(points[i][0], points[(i + 1) % points.length][0]);

const chordsOf = (a: DxfVertex, b: DxfVertex): (readonly [number, number])[] => {
  if (a.bulge === 0) return [[a.x, a.y]];
  const { center, radius, sweep } = arcOf(a, b);
  const start = Math.atan2(a.y - center[1], a.x - center[0]);
  return Array.from({ length: 64 }, (_, k) => {
    const angle = start + (sweep * k) / 64;
    return k === 0 ? [a.x, a.y] : [center[0] + radius * Math.cos(angle), center[1] + radius * Math.sin(angle)];
  });
};

const numberOf = (tags: readonly Tag[], code: number): number => Number(valueOf(tags, code));

const entityOf = (tags: readonly Tag[]): DxfEntity => {
  const common = { layer: valueOf(tags, 8), handle: valueOf(tags, 5) };
  const type = tags[0].value;
  switch (type) {
    case 'LWPOLYLINE':
      return { ...common, type, vertices: verticesOf(tags), closed: (numberOf(tags, 70) & 1) === 1 };
    case 'LINE':
      return {
        ...common,
        type,
        from: [numberOf(tags, 10), numberOf(tags, 20)],
        to: [numberOf(tags, 11), numberOf(tags, 21)],
      };
    case 'CIRCLE':
      return { ...common, type, center: [numberOf(tags, 10), numberOf(tags, 20)], radius: numberOf(tags, 40) };
    case 'TEXT':
      return {
        ...common,
        type,
        at: [numberOf(tags, 10), numberOf(tags, 20)],
        height: numberOf(tags, 40),
        text: valueOf(tags, 1),
      };
    default:
      throw new Error(`DXF: an entity of a kind that flat patterns do not use: ${type}`);
  }
};

const verticesOf = (tags: readonly Tag[]): DxfVertex[] => {
  const first = tags.findIndex((tag) => tag.code === 10);
  const vertices = splitAt(tags.slice(first), 10).map((vertex) => ({
    x: numberOf(vertex, 10),
    y: numberOf(vertex, 20),
    bulge: vertex.some((tag) => tag.code === 42) ? numberOf(vertex, 42) : 0,
  }));
  demand(vertices.length === numberOf(tags, 90), 'a polyline with a wrong count of vertices');
  return vertices;
};

/** `isRough`: outlines may cross themselves, as in tests of nothing but the format. */
export const readDxf = (text: string, { isRough = false } = {}): DxfFile => {
  const all = tagsOf(text);
  const tags = all.filter((tag) => tag.code !== 999);
  const sections = sectionsOf(tags);
  for (const name of ['HEADER', 'TABLES', 'BLOCKS', 'ENTITIES', 'OBJECTS'])
    demand(sections.has(name), `no section ${name}`);
  const header = Object.fromEntries(
    splitAt(sections.get('HEADER') ?? [], 9).map(([name, ...values]) => [name.value, values]),
  );
  const layers = splitAt(sections.get('TABLES') ?? [], 0)
    .filter((record) => record[0].value === 'LAYER')
    .map((record) => valueOf(record, 2));
  demand(new Set(layers).size === layers.length, 'a layer twice');
  const entities = splitAt(sections.get('ENTITIES') ?? [], 0).map(entityOf);
  for (const entity of entities)
    demand(layers.includes(entity.layer), `an entity on the unknown layer ${entity.layer}`);
  for (const entity of entities) {
    if (entity.type !== 'LWPOLYLINE' || !entity.layer.startsWith('CUT_')) continue;
    demand(entity.closed, `an open line on ${entity.layer}`);
    demand(isRough || !crossesItself(entity.vertices), `a line on ${entity.layer} that crosses itself`);
  }
  const outside = tags.slice(tags.findIndex((tag) => tag.value === 'ENDSEC'));
  const handles = outside.filter((tag) => tag.code === 5).map((tag) => tag.value);
  demand(new Set(handles).size === handles.length, 'a handle twice');
  const seed = parseInt(header.$HANDSEED[0].value, 16);
  for (const handle of handles) demand(parseInt(handle, 16) < seed, `handle ${handle} is not below the seed`);
  return { comments: all.filter((tag) => tag.code === 999).map((tag) => tag.value), header, layers, entities, handles };
};

// ---- measuring what was read, arcs re-evaluated from their bulges -------------------------------------------------

interface Arc {
  readonly center: readonly [number, number];
  readonly radius: number;
  /** Signed. */
  readonly sweep: number;
}

const arcOf = (a: DxfVertex, b: DxfVertex): Arc => {
  const sagitta = (a.bulge * Math.hypot(b.x - a.x, b.y - a.y)) / 2;
  const half = Math.hypot(b.x - a.x, b.y - a.y) / 2;
  const radius = (half * half + sagitta * sagitta) / (2 * Math.abs(sagitta));
  const toCenter = (radius - Math.abs(sagitta)) * Math.sign(a.bulge);
  const left = [-(b.y - a.y) / (2 * half), (b.x - a.x) / (2 * half)];
  return {
    center: [(a.x + b.x) / 2 + left[0] * toCenter, (a.y + b.y) / 2 + left[1] * toCenter],
    radius,
    sweep: 4 * Math.atan(a.bulge),
  };
};

const sides = (vertices: readonly DxfVertex[]): [DxfVertex, DxfVertex][] =>
  vertices.map((vertex, i) => [vertex, vertices[(i + 1) % vertices.length]]);

/** Positive counter-clockwise. */
export const measuredArea = (vertices: readonly DxfVertex[]): number =>
  sides(vertices).reduce((sum, [a, b]) => {
    const straight = (a.x * b.y - b.x * a.y) / 2;
    if (a.bulge === 0) return sum + straight;
    const { radius, sweep } = arcOf(a, b);
    return sum + straight + (radius ** 2 * (sweep - Math.sin(sweep))) / 2;
  }, 0);

export const measuredLength = (vertices: readonly DxfVertex[]): number =>
  sides(vertices).reduce((sum, [a, b]) => {
    if (a.bulge === 0) return sum + Math.hypot(b.x - a.x, b.y - a.y);
    const { radius, sweep } = arcOf(a, b);
    return sum + radius * Math.abs(sweep);
  }, 0);

/** [left, bottom, right, top]; arcs walked in small steps, good to 1e-6 of the radius. */
export const measuredBox = (vertices: readonly DxfVertex[]): [number, number, number, number] => {
  const points = sides(vertices).flatMap(([a, b]): [number, number][] => {
    if (a.bulge === 0) return [[a.x, a.y]];
    const { center, radius, sweep } = arcOf(a, b);
    const start = Math.atan2(a.y - center[1], a.x - center[0]);
    return Array.from({ length: 2001 }, (_, i) => {
      const angle = start + (sweep * i) / 2000;
      return [center[0] + radius * Math.cos(angle), center[1] + radius * Math.sin(angle)];
    });
  });
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
};
