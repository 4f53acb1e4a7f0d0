/** What is in the way of a bend, and what frees it, in words and in numbers with their units. */
import type { FlatPattern } from '../fold/flat-pattern.js';
import { inDeg, inMm, named, toDeg } from '../model/wording.js';
import type { Owner } from './plan/metal/body.js';
import type { Blocked, Remedy } from './plan/plan.js';

/** `` `a b`, `b c` ``: each name once. */
export const namesOf = (flat: FlatPattern, bends: readonly number[]): string =>
  [...new Set(bends.map((bend) => named(flat.bends[bend].name)))].join(', ');

/** Panel or bend by its name. */
export const ownerName = (flat: FlatPattern, { kind, index }: Owner): string =>
  kind === 'panel' ? flat.panels[index].name : flat.bends[index].name;

const ownerText = (flat: FlatPattern, owner: Owner): string => `${owner.kind} ${named(ownerName(flat, owner))}`;

/** A clause without a capital or a full stop. */
export const obstacleText = (flat: FlatPattern, { machine, die, obstacle }: Blocked): string => {
  const on = machine ? ` of ${named(machine.name)}` : '';
  switch (obstacle.kind) {
    case 'no machine':
      return 'no machine of the shop can make it at all';
    case 'flange':
      return `panel ${named(flat.panels[obstacle.panel].name)} has ${inMm(obstacle.has)} of flat metal beside it and ${die === undefined ? '' : `the ${inMm(die)} die of `}${named(machine!.name)} needs ${inMm(obstacle.needs)}`;
    case 'tool':
      return `${ownerText(flat, obstacle.owner)} meets the ${obstacle.tool}${on} at ${inDeg(obstacle.angle)} and goes ${inMm(obstacle.depth)} into it`;
    case 'fingers':
      return `${obstacle.owner ? ownerText(flat, obstacle.owner) : 'standing metal'} leaves ${inMm(obstacle.room)} for fingers${on}, and none of their sets that fit covers the bend of ${inMm(obstacle.needs)}`;
    case 'load':
      return `the metal behind the line is ${inMm(obstacle.height)} high and the daylight${on} is ${inMm(obstacle.opening)}`;
    case 'itself':
      return `${ownerText(flat, obstacle.owners[1])} runs into ${ownerText(flat, obstacle.owners[0])} at ${inDeg(obstacle.angle)}`;
  }
};

export const obstacleValues = (
  flat: FlatPattern,
  { machine, die, obstacle }: Blocked,
): Readonly<Record<string, number | string>> => {
  const setup = { ...(machine ? { machine: machine.name } : {}), ...(die === undefined ? {} : { die_mm: die }) };
  switch (obstacle.kind) {
    case 'no machine':
      return { obstacle: obstacle.kind };
    case 'flange':
      return {
        obstacle: obstacle.kind,
        ...setup,
        panel: flat.panels[obstacle.panel].name,
        flange_mm: obstacle.has,
        shortest_mm: obstacle.needs,
      };
    case 'tool':
      return {
        obstacle: obstacle.tool,
        ...setup,
        hits: ownerName(flat, obstacle.owner),
        at_deg: toDeg(obstacle.angle),
        depth_mm: obstacle.depth,
      };
    case 'fingers':
      return { obstacle: obstacle.kind, ...setup, room_mm: obstacle.room, length_mm: obstacle.needs };
    case 'load':
      return { obstacle: obstacle.kind, ...setup, height_mm: obstacle.height, daylight_mm: obstacle.opening };
    case 'itself':
      return {
        obstacle: obstacle.kind,
        ...setup,
        hits: ownerName(flat, obstacle.owners[0]),
        with: ownerName(flat, obstacle.owners[1]),
        at_deg: toDeg(obstacle.angle),
      };
  }
};

/** A change that was planned again with success, as an order. */
export const remedyText = (flat: FlatPattern, remedy: Remedy): string => {
  switch (remedy.kind) {
    case 'leg':
      return `Make ${named(flat.panels[remedy.panel].name)} ${inMm(Math.abs(remedy.by))} ${remedy.by > 0 ? 'longer' : 'shorter'}`;
    case 'trim':
      return `Trim ${remedy.panels.map((panel) => named(flat.panels[panel].name)).join(', ')} by ${inMm(remedy.by)} at each end of ${remedy.panels.length === 1 ? 'its bend' : 'their bends'}`;
    case 'depth':
      return `Use a tool that reaches ${inMm(remedy.depth)} below the beam of ${named(remedy.machine.name)}`;
    case 'die':
      return `Use a ${inMm(remedy.opening)} die in ${named(remedy.machine.name)}`;
    case 'finger':
      return `Add a finger of ${inMm(remedy.width)} to ${named(remedy.machine.name)}`;
    case 'split':
      return `Cut the part at bend ${namesOf(flat, remedy.bends)} and join the two with a seam`;
  }
};

export const remedyValues = (flat: FlatPattern, remedy: Remedy): Readonly<Record<string, number | string>> => {
  switch (remedy.kind) {
    case 'leg':
      return { change: 'leg', panel: flat.panels[remedy.panel].name, by_mm: remedy.by };
    case 'trim':
      return { change: 'trim', panel: remedy.panels.map((i) => flat.panels[i].name).join(' '), by_mm: remedy.by };
    case 'depth':
      return { change: 'tool depth', machine: remedy.machine.name, depth_mm: remedy.depth };
    case 'die':
      return { change: 'die', machine: remedy.machine.name, die_mm: remedy.opening };
    case 'finger':
      return { change: 'finger', machine: remedy.machine.name, width_mm: remedy.width };
    case 'split':
      return { change: 'seam instead of a bend', bend: flat.bends[remedy.bends[0]].name };
  }
};
