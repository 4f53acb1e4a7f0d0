/**
 * The tools as prisms along the bend line: their outlines in the plane across it. x: distance from the line towards the
 * operator, y: height; mm.
 */
import type { FoldingBrake, PressBrake } from '../../../model/tub.js';
import type { Vec2 } from '../../../geometry/vec.js';
import { convexPieces, cutAtHeight, type Convex } from '../../../geometry/hulls/convex.js';

export type ToolName = 'punch' | 'beam' | 'die' | 'table' | 'clamp' | 'clamping beam' | 'bed' | 'leaf';

/** A tool's outline in convex pieces. */
export interface Tool {
  readonly name: ToolName;
  readonly pieces: readonly Convex[];
}

/** Upper tools stand with the punch's tip in the origin, lower ones with the top of the die at height 0. */
export interface PressTools {
  readonly punch: Tool;
  readonly beam: Tool;
  readonly die: Tool;
  readonly table: Tool;
}

/** The clamped sheet's underside lies at height 0; its tangent line, where the nose ends, at distance 0. The leaf is
 *  given in the turning leg's own plane: x from its tangent line outwards, y from its underside. */
export interface FolderTools {
  readonly clamp: Tool;
  readonly beam: Tool;
  readonly bed: Tool;
  readonly leaf: Tool;
}

/** mm. Dimensions of tools that no shop file states. Common practice, no source; a measured profile replaces them. */
export const UNSTATED = {
  punchHalfWidth: 15,
  beamHalfWidth: 50,
  beamHeight: 400,
  dieShoulder: 10,
  dieHeight: 60,
  tableHalfWidth: 40,
  tableDepth: 1500,
  clampThickness: 10,
  clampBeamDepth: 250,
  bedWidth: 150,
  leafReach: 60,
  leafThickness: 40,
} as const;

const tool = (name: ToolName, ...outlines: readonly (readonly Vec2[])[]): Tool => ({
  name,
  pieces: outlines.filter((outline) => outline.length >= 3).flatMap(convexPieces),
});

export const pressToolsOf = (brake: PressBrake, opening: number, sheetRadius: number): PressTools => {
  const punch = brake.punchProfile ?? punchOutline(brake, sheetRadius);
  const beamStarts = brake.depth;
  const upper = cutAtHeight(punch, beamStarts, 1);
  const { beamHalfWidth, beamHeight, dieHeight, tableHalfWidth, tableDepth } = UNSTATED;
  const beam = upper.length > 0 ? upper : rectangle(-beamHalfWidth, beamHalfWidth, beamStarts, beamStarts + beamHeight);
  const die = brake.dieProfile ? [brake.dieProfile] : dieOutlines(brake, opening);
  const dieBottom = brake.dieProfile ? Math.min(...brake.dieProfile.map(([, y]) => y)) : -dieHeight;
  return {
    punch: tool('punch', cutAtHeight(punch, beamStarts, -1)),
    beam: tool('beam', beam),
    die: tool('die', ...die),
    table: tool('table', rectangle(-tableHalfWidth, tableHalfWidth, dieBottom - tableDepth, dieBottom)),
  };
};

/** A nose of the punch's radius (never larger than the bend's own), straight flanks at half the nose angle, a body. */
const punchOutline = (brake: PressBrake, sheetRadius: number): readonly Vec2[] => {
  const half = brake.nose / 2;
  const radius = Math.min(brake.punchRadius, sheetRadius);
  const shoulder: Vec2 = [radius * Math.cos(half), radius * (1 - Math.sin(half))];
  const knee = (angle: number): Vec2 => [radius * Math.sin(angle), radius * (1 - Math.cos(angle))];
  const width = Math.max(UNSTATED.punchHalfWidth, shoulder[0]);
  const widens = shoulder[1] + (width - shoulder[0]) / Math.tan(half);
  const right: Vec2[] = [knee((Math.PI / 2 - half) / 2), shoulder];
  if (widens < brake.depth) right.push([width, widens], [width, brake.depth]);
  else right.push([shoulder[0] + (brake.depth - shoulder[1]) * Math.tan(half), brake.depth]);
  return [[0, 0], ...right, ...right.map(([x, y]): Vec2 => [-x, y]).reverse()];
};

/** Two shoulders with flat tops and a groove as steep as the punch: whatever the punch reaches, the groove lets in. */
const dieOutlines = (brake: PressBrake, opening: number): readonly (readonly Vec2[])[] => {
  const { dieShoulder, dieHeight } = UNSTATED;
  const half = opening / 2;
  const groove = Math.min(half / Math.tan(brake.nose / 2), dieHeight);
  const floor = half - groove * Math.tan(brake.nose / 2);
  const outer = half + dieShoulder;
  const right: readonly Vec2[] = [
    [half, 0],
    [floor, -groove],
    [floor, -dieHeight],
    [outer, -dieHeight],
    [outer, 0],
  ];
  return [right, right.map(([x, y]): Vec2 => [-x, y])];
};

export const folderToolsOf = (brake: FoldingBrake, thickness: number, radius: number): FolderTools => {
  const { clampBeamDepth, bedWidth, tableDepth, leafReach, leafThickness } = UNSTATED;
  const top = thickness + brake.depth;
  const clamp = brake.clampProfile ?? clampOutline(brake, thickness, radius);
  const measuredBeam = cutAtHeight(clamp, top, 1);
  const front = frontAt(brake, thickness, radius, top);
  const lean = Math.cos(brake.nose) / Math.sin(brake.nose);
  const rise = clampBeamDepth / Math.max(lean, 1);
  const back = front - rise * lean;
  const beam: readonly Vec2[] = [
    [front, top],
    [back, top + rise],
    [back - clampBeamDepth, top + rise],
    [front - clampBeamDepth, top],
  ];
  return {
    clamp: tool('clamp', cutAtHeight(clamp, top, -1)),
    beam: tool('clamping beam', measuredBeam.length > 0 ? measuredBeam : beam),
    bed: tool('bed', rectangle(-bedWidth, 0, -tableDepth, 0)),
    leaf: tool('leaf', brake.leafProfile ?? rectangle(0, leafReach, -leafThickness, 0)),
  };
};

/** A nose rounded to the bend's radius; the front leans back by the nose angle, the heel stands behind. */
const clampOutline = (brake: FoldingBrake, thickness: number, radius: number): readonly Vec2[] => {
  const top = thickness + brake.depth;
  const front = frontAt(brake, thickness, radius, top);
  const heel = Math.min(front, 0) - UNSTATED.clampThickness;
  return [
    [0, thickness],
    [radius * Math.sin(brake.nose), thickness + radius * (1 + Math.cos(brake.nose))],
    [front, top],
    [heel, top],
    [heel, thickness],
  ];
};

/** Where the clamp's front face stands at that height. */
const frontAt = (brake: FoldingBrake, thickness: number, radius: number, height: number): number => {
  const rise = height - (thickness + radius * (1 + Math.cos(brake.nose)));
  return radius * Math.sin(brake.nose) - (rise * Math.cos(brake.nose)) / Math.sin(brake.nose);
};

const rectangle = (x0: number, x1: number, y0: number, y1: number): readonly Vec2[] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];
