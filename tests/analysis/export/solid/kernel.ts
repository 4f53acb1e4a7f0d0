/** The independent kernel that reads solid files back (an OpenCascade build). */
import occtimportjs from 'occt-import-js';

type Kernel = Awaited<ReturnType<typeof occtimportjs>>;
type ReadFile = ReturnType<Kernel['ReadStepFile']>;
type KernelMesh = ReadFile['meshes'][number];

let kernel: Promise<Kernel> | undefined;

/** Reads the file; its curved faces come as triangles no farther than `deflection` mm from them. */
export const readSolids = async (step: string, deflection: number): Promise<ReadFile> => {
  kernel ??= occtimportjs();
  const options = {
    linearUnit: 'millimeter',
    linearDeflectionType: 'absolute_value',
    linearDeflection: deflection,
    angularDeflection: 0.5,
  };
  return (await kernel).ReadStepFile(new TextEncoder().encode(step), options);
};

export interface Measured {
  readonly volume: number;
  readonly skin: number;
  readonly openEdges: number;
  readonly faces: number;
}

/** Volume and skin of the triangles, and how many of their edges (corners joined by position) lack a partner. */
export const measure = (mesh: KernelMesh): Measured => {
  const at = mesh.attributes.position.array;
  const point = (i: number): [number, number, number] => [at[3 * i], at[3 * i + 1], at[3 * i + 2]];
  const known = new Map<string, number>();
  const ids = Array.from({ length: at.length / 3 }, (_, i) => {
    const key = point(i)
      .map((c) => Math.round(c * 1e4))
      .join(' ');
    const id = known.get(key) ?? known.size;
    known.set(key, id);
    return id;
  });
  /** Runs from the lower corner to the higher, less those back, by both corners. */
  const edges = new Map<number, number>();
  let [volume, skin] = [0, 0];
  for (let i = 0; i < mesh.index.array.length; i += 3) {
    const corners = [0, 1, 2].map((k) => mesh.index.array[i + k]);
    const [a, b, c] = corners.map(point);
    const n = crossOf(minus(b, a), minus(c, a));
    volume += (a[0] * n[0] + a[1] * n[1] + a[2] * n[2]) / 6;
    skin += Math.hypot(...n) / 2;
    corners.forEach((p, k) => {
      const [from, to] = [ids[p], ids[corners[(k + 1) % 3]]];
      const edge = Math.min(from, to) * known.size + Math.max(from, to);
      edges.set(edge, (edges.get(edge) ?? 0) + Math.sign(to - from));
    });
  }
  return { volume, skin, openEdges: [...edges.values()].filter((n) => n !== 0).length, faces: mesh.brep_faces.length };
};

const minus = (a: readonly number[], b: readonly number[]): [number, number, number] => [
  a[0] - b[0],
  a[1] - b[1],
  a[2] - b[2],
];
const crossOf = (a: readonly number[], b: readonly number[]): [number, number, number] => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
