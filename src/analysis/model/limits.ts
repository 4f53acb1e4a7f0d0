/**
 * What one tub may be made of: every quantity that is read, and every count that is worked out, ends here. Each limit lies
 * far beyond what is built of sheet, and near enough that no short text can ask for more time or memory than there is.
 */
export interface Limit {
  /** As it is called in a finding: "the limit of a length". */
  readonly name: string;
  /** Of `atLeast` and `atMost`; empty for a count. */
  readonly unit: string;
  /** Smallest size but zero, where a size is needed at all. */
  readonly atLeast?: number;
  /** Largest size, either way. */
  readonly atMost: number;
  readonly reason: string;
}

export const limits = {
  length: {
    name: 'a length',
    unit: 'mm',
    atLeast: 0.001,
    atMost: 100_000,
    reason: 'Sheet comes in coils, tubs do not; up to here a thousandth of a millimetre is certain in double precision',
  },
  reach: {
    name: 'a coordinate',
    unit: 'mm',
    atMost: 100_000,
    reason: 'As a length: what is farther off lies on another site',
  },
  thickness: {
    name: 'a thickness',
    unit: 'mm',
    atLeast: 0.05,
    atMost: 100,
    reason: 'Foil below, forged plate above: neither is bent over a punch or welded as sheet',
  },
  angle: { name: 'an angle', unit: 'deg', atMost: 3600, reason: 'Ten turns: more is a slip' },
  number: { name: 'a number', unit: '', atMost: 1e6, reason: 'Nothing that is counted or multiplied by is larger' },
  volume: {
    name: 'a volume',
    unit: 'L',
    atLeast: 1e-6,
    atMost: 1e6,
    reason: 'A tank of 1000 m3 is no sheet-metal tub',
  },
  flow: { name: 'a flow', unit: 'L/min', atLeast: 1e-6, atMost: 1e6, reason: 'A river of 16 m3/s' },
  force: {
    name: 'a force',
    unit: 'kN',
    atLeast: 1e-3,
    atMost: 1e6,
    reason: 'A hundred thousand tons: no press has it',
  },
  mass: { name: 'a mass', unit: 'kg', atMost: 1e6, reason: 'A thousand tons: no tub weighs it' },
  viscosity: {
    name: 'a viscosity',
    unit: 'cSt',
    atLeast: 0.01,
    atMost: 1e6,
    reason: 'From thinner than any liquid to tar',
  },
  tension: {
    name: 'a surface tension',
    unit: 'mN/m',
    atLeast: 1,
    atMost: 1000,
    reason: 'From liquid gas to molten metal',
  },
  time: { name: 'a time', unit: 'sec', atMost: 1e6, reason: 'More than a week for one stroke or hole is no work' },
  speed: {
    name: 'a speed',
    unit: 'm/min',
    atLeast: 1e-4,
    atMost: 10_000,
    reason: 'From a tenth of a millimetre a minute to faster than any head moves',
  },
  density: { name: 'a density', unit: 'kg/m3', atLeast: 1, atMost: 25_000, reason: 'From gas to osmium' },
  mesh: { name: 'a mesh', unit: '', atLeast: 0.1, atMost: 1000, reason: 'Wires per inch: finer cloth is not woven' },
  row: {
    name: 'a row of holes',
    unit: '',
    atMost: 1000,
    reason: 'Each hole is drawn, drained and looked at by itself',
  },
  repeats: { name: 'how often a group stands', unit: '', atMost: 50, reason: 'No tub stands on as many legs' },
  made: {
    name: 'statements and legs that `mirror` and `repeat` make',
    unit: '',
    atMost: 300,
    reason: 'Each is a panel, a seam or a row of holes that is worked out like those that are written',
  },
  openings: { name: 'the openings of a tub', unit: '', atMost: 2000, reason: 'As for a row of holes' },
  triangles: {
    name: 'the triangles of a thing',
    unit: '',
    atMost: 200_000,
    reason: 'Each is looked at by itself wherever metal comes near; a coarser file does for what only stands there',
  },
  spots: { name: 'spots in one place', unit: '', atMost: 100, reason: 'More do not fit a tab or a step of a lap' },
  joints: {
    name: 'the tabs, clips, spots and rivets of a tub',
    unit: '',
    atMost: 10_000,
    reason: 'Each is placed, drawn and looked at by itself',
  },
  listed: { name: 'a list', unit: '', atMost: 200, reason: 'No rack holds more dies, no profile has more corners' },
  stock: { name: 'sheets on the rack', unit: '', atMost: 10_000, reason: 'More than any rack holds' },
  free: { name: 'free values', unit: '', atMost: 10, reason: 'The search tries about the square of them many tubs' },
  variants: { name: 'variants of a tub', unit: '', atMost: 20, reason: 'Each is checked as a tub of its own' },
  findings: { name: 'findings of one kind', unit: '', atMost: 100, reason: 'Nobody reads more; the total is told' },
  text: { name: 'a text', unit: 'characters', atMost: 4_000_000, reason: 'Ten thousand panels need a third of it' },
  brackets: { name: 'brackets in brackets', unit: '', atMost: 60, reason: 'The parser works by recursion' },
  signs: { name: 'signs in a row', unit: '', atMost: 400, reason: 'The parser works by recursion' },
  chain: { name: 'a chain of statements', unit: '', atMost: 800, reason: 'Each costs room on the call stack' },
} as const satisfies Readonly<Record<string, Limit>>;

export type LimitName = keyof typeof limits;
