/** Which bend of a strip that was read has a leg fall more, and what it then turns. */
import type { PanelIndex, Tub } from '../model/tub.js';
import type { MadeStrip } from './as-made.js';

export interface SteeperBend {
  readonly name: string;
  /** rad, deviation from flat: as made, and with the leg so much steeper. */
  readonly from: number;
  readonly to: number;
}

/** `by`: rad that the leg is to fall more, the way it falls. Undefined: what it stands on is not said, or it is that. */
export const steeperBend = (
  { strips, bends }: Tub,
  made: readonly MadeStrip[],
  panel: PanelIndex,
  by: number,
): SteeperBend | undefined => {
  const own = made.find(({ strip }) => strips[strip].panels.includes(panel));
  const held = own?.task.footing.leg;
  if (!own || held === undefined) return undefined;
  const leg = strips[own.strip].panels.indexOf(panel);
  if (leg === held) return undefined;
  const [a, b] = [own.profile.points[leg], own.profile.points[leg + 1]];
  const slope = Math.atan2(b[1] - a[1], b[0] - a[0]) + own.moved.turned[leg];
  // Turns count along the travel: what lies beyond the bend follows it, what lies before it goes against it.
  const more = (Math.sin(2 * slope) < 0 ? -by : by) * (leg > held ? 1 : -1);
  const bend = leg > held ? leg - 1 : leg;
  const turn = own.folding.turns[bend];
  return { name: bends[own.profile.bends[bend].bend].name, from: Math.abs(turn), to: Math.abs(turn + more) };
};
