/** Measures an SVG path of M, L, A and Z from its text alone, y turned back up; arcs by the standard's own formulas. */
export interface MeasuredPath {
  readonly closed: boolean;
  readonly arcs: number;
  /** Positive counter-clockwise, mm2. */
  readonly area: number;
  readonly length: number;
}

export const readPath = (d: string): MeasuredPath => {
  const commands = d.match(/[MLAZ][^MLAZ]*/g) ?? [];
  let [x, y, area, length, arcs] = [0, 0, 0, 0, 0];
  let start: [number, number] = [0, 0];
  const lineTo = (nx: number, ny: number): void => {
    area += (x * ny - nx * y) / 2;
    length += Math.hypot(nx - x, ny - y);
    [x, y] = [nx, ny];
  };
  for (const command of commands) {
    const n = command.slice(1).trim().split(/[ ,]+/).map(Number);
    if (command[0] === 'M') [x, y, start] = [n[0], -n[1], [n[0], -n[1]]];
    if (command[0] === 'L') lineTo(n[0], -n[1]);
    if (command[0] === 'Z') lineTo(...start);
    if (command[0] !== 'A') continue;
    arcs += 1;
    const [radius, , , large, sweepFlag, nx, down] = n;
    const half = Math.hypot(nx - x, -down - y) / 2;
    const small = 2 * Math.asin(Math.min(1, half / radius));
    const turn = (large === 1 ? 2 * Math.PI - small : small) * (sweepFlag === 1 ? -1 : 1);
    const before = length;
    lineTo(nx, -down);
    length = before + Math.abs(turn) * radius;
    area += (radius ** 2 * (turn - Math.sin(turn))) / 2;
  }
  return { closed: commands.at(-1)?.[0] === 'Z', arcs, area, length };
};
