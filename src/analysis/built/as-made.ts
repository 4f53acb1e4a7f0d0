/** The tub as it is made: strips folded as their bends came out, and all that is not cut yet following them. */
import { NOISE } from '../geometry/tolerance.js';
import type { Vec2 } from '../geometry/vec.js';
import type { BendReading, MadePart, StripIndex, Tub } from '../model/tub.js';
import { turnsBySlopes, type ReadTurns } from './by-slopes.js';
import { closedBy, foldingWith, reachOf, type ClosingTask } from './closing.js';
import { contactOf, drawnContact, type Contact } from './contact.js';
import { followersOf } from './followers.js';
import { foldedAs, profileOf, type Folding, type Footing, type Moved, type Profile } from './profile.js';
import { turnedOf, type TurnedBend } from './turned.js';

/** A strip of which something was read. */
export interface MadeStrip {
  readonly made: MadePart;
  readonly strip: StripIndex;
  readonly profile: Profile;
  readonly folding: Folding;
  readonly moved: Moved;
  /** Bends of the profile that were read or follow from slopes, and those still to be made: these are as they close best. */
  readonly read: readonly number[];
  readonly open: readonly number[];
  /** What it was closed against, the open bends as drawn. */
  readonly task: ClosingTask;
}

export interface Built {
  /** As made, with the readings that follow from others. */
  readonly tub: Tub;
  /** No panel lies elsewhere than it was drawn. */
  readonly isAsPlanned: boolean;
  readonly strips: readonly MadeStrip[];
  /** Bends of no strip that were read. */
  readonly turned: readonly TurnedBend[];
}

/** Pure in the stated tub. Cost: O(n) in panels times the strips that were read. */
export const builtOf = (stated: Tub): Built => {
  const strips = (stated.made ?? []).flatMap((made) => madeStrip(stated, made) ?? []);
  const off = strips.filter(({ moved }) => isMoved(moved));
  const { tub, bends: turned } = turnedOf(off.length === 0 ? stated : followersOf(stated, off));
  const made = stated.made?.map((part) => strips.find(({ made: { at } }) => at === part.at)?.made ?? part);
  const isRead = made?.every((part, i) => part === stated.made?.[i]) ?? true;
  const isAsPlanned = tub === stated;
  const readTub = isRead ? tub : { ...tub, made };
  return { strips, turned, tub: isAsPlanned ? readTub : { ...readTub, drawn: stated.panels }, isAsPlanned };
};

const isMoved = ({ by, turned }: Moved): boolean =>
  by.some(([x, y]) => x !== 0 || y !== 0) || turned.some((turn) => turn !== 0);

const madeStrip = (tub: Tub, stated: MadePart): MadeStrip | undefined => {
  const { kind } = tub.panels[stated.panel];
  if (kind.kind !== 'leg') return undefined;
  const strip = tub.strips[kind.strip];
  const profile = profileOf(tub, strip);
  if (!profile) return undefined;
  const readings = profile.bends.map(({ bend }) => {
    const { panels } = tub.bends[bend];
    return stated.bends.find((reading) => reading.panels[0] === panels[0] && reading.panels[1] === panels[1]);
  });
  const read = profile.bends.map(({ turn }, i) => readingOf(turn, readings[i]?.turn));
  const task = taskOf(tub, stated, profile, { read, strip: kind.strip });
  const known = turnsBySlopes(profile, read, task.footing.slopes);
  const bends = known.map((_, i) => i);
  const open = bends.filter((i) => known[i] === undefined);
  const folding = foldingWith(task, closedBy(task, open));
  return {
    made: withSlopes(tub, stated, profile, known),
    strip: kind.strip,
    profile,
    folding,
    moved: foldedAs(profile, folding, task.footing),
    read: bends.filter((i) => known[i] !== undefined),
    open,
    task,
  };
};

/** With a reading for each bend that was not read and follows from slopes. */
const withSlopes = (tub: Tub, made: MadePart, { bends }: Profile, known: ReadTurns): MadePart => {
  const found = bends.flatMap(({ bend }, i): BendReading[] => {
    const { panels } = tub.bends[bend];
    const turn = known[i];
    if (turn === undefined || made.bends.some((each) => each.panels[0] === panels[0] && each.panels[1] === panels[1]))
      return [];
    const at = made.slopes.find(({ panel }) => panels.includes(panel))?.at ?? made.slopes[0].at;
    return [{ at, panels, turn: Math.abs(turn), isOpening: false, bentTo: undefined, isBySlopes: true }];
  });
  return found.length === 0 ? made : { ...made, bends: [...made.bends, ...found] };
};

const taskOf = (
  tub: Tub,
  made: MadePart,
  profile: Profile,
  { read, strip }: { readonly read: ReadTurns; readonly strip: StripIndex },
): ClosingTask => {
  const { panels } = tub.strips[strip];
  const taped = made.lengths.map(({ panel, length, over }) => ({ leg: panels.indexOf(panel), length, over }));
  const footing: Footing = {
    leg: made.standingOn === undefined ? undefined : panels.indexOf(made.standingOn),
    slopes: made.slopes.map(({ panel, slope }) => ({ leg: panels.indexOf(panel), slope })),
  };
  const known = turnsBySlopes(profile, read, footing.slopes);
  const turns = profile.bends.map(({ turn }, bend) => known[bend] ?? turn);
  return { profile, footing, taped, read, turns, contacts: contactsOf(tub, strip, profile), reach: reachOf(tub) };
};

/** What is cut and meets the strip; where nothing is, all that meets it is still to be cut to it, and it had best come out as drawn. */
const contactsOf = (tub: Tub, index: StripIndex, profile: Profile): readonly Contact[] => {
  const strip = tub.strips[index];
  const cut = (tub.made ?? []).flatMap(({ panel }) =>
    strip.panels.includes(panel) ? [] : (contactOf(tub, strip, profile, panel) ?? []),
  );
  return cut.length === 0 ? [drawnContact(profile)] : cut;
};

/** With the sign of the bend as drawn; exactly as drawn where it reads the same. */
const readingOf = (drawn: number, read: number | undefined): number | undefined => {
  if (read === undefined) return undefined;
  if (Math.abs(read - Math.abs(drawn)) <= NOISE) return drawn;
  return drawn < 0 ? -read : read;
};

/** The corners of a strip's profile as made. */
export const madePoints = ({ profile, moved }: Pick<MadeStrip, 'profile' | 'moved'>): readonly Vec2[] =>
  profile.points.map(([x, y], i) => [x + moved.by[i][0], y + moved.by[i][1]]);
