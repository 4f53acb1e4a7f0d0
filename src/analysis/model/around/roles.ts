/** What panels are for, and so what they are judged by. */
import type { Group, GroupIndex, PanelIndex, Tub } from '../tub.js';

export type Role = 'tub' | 'existing' | 'support' | 'removable';

/** A `part` is of the tub. */
export const roleOf = ({ panels, groups }: Pick<Tub, 'panels' | 'groups'>, panel: PanelIndex): Role => {
  const role = groups?.[panels[panel]?.group ?? -1]?.role ?? 'part';
  return role === 'part' ? 'tub' : role;
};

/** Does it hold or lead the liquid? Supports and existing things stay dry; removable ones are judged as taken out. */
export const isWet = (tub: Pick<Tub, 'panels' | 'groups'>, panel: PanelIndex): boolean => roleOf(tub, panel) === 'tub';

/** Is it cut and bent for this job? */
export const isMade = (tub: Pick<Tub, 'panels' | 'groups'>, panel: PanelIndex): boolean =>
  roleOf(tub, panel) !== 'existing';

/** Panels that hang together belong to one body: the tub with its parts, or one other group each. */
export const bodyOf = ({ panels, groups }: Pick<Tub, 'panels' | 'groups'>, panel: PanelIndex): GroupIndex | -1 => {
  const group = panels[panel]?.group;
  return group === undefined || groups?.[group]?.role === 'part' ? -1 : group;
};

/** For people: `the tub`, or the name of the group. */
export const toldBody = ({ groups }: Pick<Tub, 'groups'>, body: GroupIndex | -1): string =>
  body === -1 ? 'the tub' : `\`${groups?.[body]?.name ?? '?'}\``;

/** For people: `support \`stand\``. */
export const toldGroup = ({ role, name }: Group): string => `${role === 'part' ? 'part' : role} \`${name}\``;
