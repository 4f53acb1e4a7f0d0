import { notMet } from './aim/not-met.js';
import { noSharedEdge } from './bend/no-shared-edge.js';
import { twoSheets } from './bend/two-sheets.js';
import { foldedOntoItself } from './bend/folded-onto-itself.js';
import { closedLoop } from './bend/closed-loop.js';
import { legTooShort } from './bend/leg-too-short.js';
import { hemTooShort } from './bend/hem-too-short.js';
import { holeAcrossBend } from './bend/hole-across-bend.js';
import { noAngle } from './bend/no-angle.js';
import { sharpCornerFar } from './bend/sharp-corner-far.js';
import { noOutlet } from './drain/no-outlet.js';
import { deadLevel } from './drain/dead-level.js';
import { tooFlat } from './drain/too-flat.js';
import { creaseTooFlat } from './drain/crease-too-flat.js';
import { pool } from './drain/pool.js';
import { poolOffLevel } from './drain/pool-off-level.js';
import { inflowOffPanel } from './drain/inflow-off-panel.js';
import { inflowLost } from './drain/inflow-lost.js';
import { pathLeft } from './drain/path-left.js';
import { clings } from './drain/clings.js';
import { splashesOut } from './drain/splashes-out.js';
import { edgeWithoutDrip } from './drain/edge-without-drip.js';
import { outletStarved } from './drain/outlet-starved.js';
import { outletOverwhelmed } from './drain/outlet-overwhelmed.js';
import { outletInside } from './drain/outlet-inside.js';
import { runsOver } from './week/runs-over.js';
import { tankLow } from './week/tank-low.js';
import { strainerFull } from './week/strainer-full.js';
import { notCovered } from './pump/not-covered.js';
import { fasterThanDrain } from './pump/faster-than-drain.js';
import { hoseFast } from './pump/hose-fast.js';
import { offCurve } from './pump/off-curve.js';
import { siphons } from './pump/siphons.js';
import { pipeFlat } from './drain/pipe-flat.js';
import { overflowSmall } from './drain/overflow-small.js';
import { overflowWetted } from './drain/overflow-wetted.js';
import { crestOverwhelmed } from './drain/crest-overwhelmed.js';
import { noLip } from './drain/no-lip.js';
import { noWayOut } from './drain/no-way-out.js';
import { strainerSmall } from './drain/strainer-small.js';
import { strainerTooLarge } from './drain/strainer-too-large.js';
import { strainerTooCoarse } from './drain/strainer-too-coarse.js';
import { strainerFills } from './drain/strainer-fills.js';
import { solidsSettle } from './drain/solids-settle.js';
import { overflowOntoDry } from './drain/overflow-onto-dry.js';
import { dryZoneWet } from './drain/dry-zone-wet.js';
import { missesTank } from './drain/misses-tank.js';
import { tankLargerThanBox } from './drain/tank-larger-than-box.js';
import { tankOverfull } from './drain/tank-overfull.js';
import { tankRunsDry } from './drain/tank-runs-dry.js';
import { overlapsItself } from './flat/overlaps-itself.js';
import { tooFewCorners } from './shape/too-few-corners.js';
import { repeatedCorner } from './shape/repeated-corner.js';
import { noArea } from './shape/no-area.js';
import { notFlat } from './shape/not-flat.js';
import { cornersMoved } from './shape/corners-moved.js';
import { selfCrossing } from './shape/self-crossing.js';
import { wetSideConflict } from './shape/wet-side-conflict.js';
import { cornersApart } from './shape/corners-apart.js';
import { edgeUsedTwice } from './shape/edge-used-twice.js';
import { openingOffPlane } from './shape/opening-off-plane.js';
import { openingOutside } from './shape/opening-outside.js';
import { notchOffEdge } from './shape/notch-off-edge.js';
import { openingsOverlap } from './shape/openings-overlap.js';
import { seamApart } from './shape/seam-apart.js';
import { metalInMetal } from './shape/metal-in-metal.js';
import { metalNotStated } from './shape/metal-not-stated.js';
import { doesNotComeOut } from './shape/does-not-come-out.js';
import { playShort } from './shape/play-short.js';
import { notClear } from './shape/not-clear.js';
import { keepoutEntered } from './shape/keepout-entered.js';
import { couponImplausible } from './sheet/coupon-implausible.js';
import { unjoinedEdge } from './seal/unjoined-edge.js';
import { nearMiss } from './seal/near-miss.js';
import { partlyCovered } from './seal/partly-covered.js';
import { openFaceJoint } from './seal/open-face-joint.js';
import { openSeam } from './seal/open-seam.js';
import { bowOpens } from './seal/bow-opens.js';
import { gapTooWide } from './seal/gap-too-wide.js';
import { openCorner } from './seal/open-corner.js';
import { openRelief } from './seal/open-relief.js';
import { openNotch } from './seal/open-notch.js';
import { fastenerUnsealed } from './seal/fastener-unsealed.js';
import { openingUnderWater } from './seal/opening-under-water.js';
import { lowFreeEdge } from './seal/low-free-edge.js';
import { noseOpen } from './seal/nose-open.js';
import { noRoomForTab } from './join/no-room-for-tab.js';
import { tooManyPieces } from './join/too-many-pieces.js';
import { tabsCollide } from './join/tabs-collide.js';
import { edgeInBend } from './join/edge-in-bend.js';
import { tabTooShallow } from './join/tab-too-shallow.js';
import { tabOverhangs } from './join/tab-overhangs.js';
import { partsLock } from './join/parts-lock.js';
import { spotNoTable } from './join/spot-no-table.js';
import { spotPitch } from './join/spot-pitch.js';
import { spotEdge } from './join/spot-edge.js';
import { spotOverlap } from './join/spot-overlap.js';
import { spotRatio } from './join/spot-ratio.js';
import { spotStack } from './join/spot-stack.js';
import { spotOutOfReach } from './join/spot-out-of-reach.js';
import { rivetPitch } from './join/rivet-pitch.js';
import { rowWithoutLap } from './join/row-without-lap.js';
import { rowOffSheet } from './join/row-off-sheet.js';
import { rowEdge } from './join/row-edge.js';
import { rowCrowded } from './join/row-crowded.js';
import { rowBlocked } from './join/row-blocked.js';
import { rivetSize } from './join/rivet-size.js';
import { facesApart } from './join/faces-apart.js';
import { mouthMisfit } from './join/mouth-misfit.js';
import { gasketPitch } from './join/gasket-pitch.js';
import { fastenerEdge } from './join/fastener-edge.js';
import { fastenerCrowded } from './join/fastener-crowded.js';
import { fastenerGrip } from './join/fastener-grip.js';
import { fastenerHole } from './join/fastener-hole.js';
import { fastenerBlocked } from './join/fastener-blocked.js';
import { frameTooLarge } from './join/frame-too-large.js';
import { farOff } from './made/far-off.js';
import { nextBend } from './made/next-bend.js';
import { recut } from './made/recut.js';
import { scatter } from './made/scatter.js';
import { standsOff } from './made/stands-off.js';
import { defaultShop } from './make/default-shop.js';
import { noBrake } from './make/no-brake.js';
import { radiusTooSmall } from './make/radius-too-small.js';
import { dieMisfit } from './make/die-misfit.js';
import { onNoSheet } from './make/on-no-sheet.js';
import { pinNotKept } from './make/pin-not-kept.js';
import { radiusNotMade } from './make/radius-not-made.js';
import { forceTooHigh } from './make/force-too-high.js';
import { sheetTooThick } from './make/sheet-too-thick.js';
import { bendTooLong } from './make/bend-too-long.js';
import { angleOutOfReach } from './make/angle-out-of-reach.js';
import { flangeTooShort } from './make/flange-too-short.js';
import { holeNearBend } from './make/hole-near-bend.js';
import { fingersDoNotFit } from './make/fingers-do-not-fit.js';
import { largerThanCutter } from './make/larger-than-cutter.js';
import { holeTooSmall } from './make/hole-too-small.js';
import { narrowerThanKerf } from './make/narrower-than-kerf.js';
import { noBendingOrder } from './make/no-bending-order.js';
import { orderNotDecided } from './make/order-not-decided.js';
import type { Rule } from './rule.js';

/** Every check, in the order in which they run; nothing else. One line per check, grouped by family. */
export const rules: readonly Rule[] = [
  // sheet
  couponImplausible,

  // shape
  tooFewCorners,
  repeatedCorner,
  noArea,
  notFlat,
  cornersMoved,
  selfCrossing,
  wetSideConflict,
  cornersApart,
  edgeUsedTwice,
  openingOffPlane,
  openingOutside,
  notchOffEdge,
  openingsOverlap,
  seamApart,
  keepoutEntered,
  metalNotStated,
  metalInMetal,
  notClear,
  playShort,
  doesNotComeOut,

  // bend
  noSharedEdge,
  twoSheets,
  foldedOntoItself,
  closedLoop,
  legTooShort,
  hemTooShort,
  holeAcrossBend,
  noAngle,
  sharpCornerFar,

  // flat
  overlapsItself,

  // drain
  noOutlet,
  deadLevel,
  tooFlat,
  creaseTooFlat,
  pool,
  poolOffLevel,
  inflowOffPanel,
  inflowLost,
  pathLeft,
  clings,
  splashesOut,
  edgeWithoutDrip,
  outletStarved,
  outletOverwhelmed,
  outletInside,
  noWayOut,
  crestOverwhelmed,
  overflowWetted,
  overflowSmall,
  pipeFlat,
  noLip,
  strainerSmall,
  strainerTooCoarse,
  strainerTooLarge,
  strainerFills,
  solidsSettle,
  overflowOntoDry,
  dryZoneWet,
  missesTank,
  tankLargerThanBox,
  tankOverfull,
  tankRunsDry,

  // pump
  notCovered,
  fasterThanDrain,
  hoseFast,
  offCurve,
  siphons,

  // week
  runsOver,
  tankLow,
  strainerFull,

  // seal
  unjoinedEdge,
  nearMiss,
  partlyCovered,
  openFaceJoint,
  openSeam,
  gapTooWide,
  bowOpens,
  openCorner,
  openRelief,
  openNotch,
  fastenerUnsealed,
  openingUnderWater,
  lowFreeEdge,
  noseOpen,

  // join
  noRoomForTab,
  tooManyPieces,
  tabTooShallow,
  edgeInBend,
  tabsCollide,
  tabOverhangs,
  partsLock,
  spotNoTable,
  spotPitch,
  spotEdge,
  spotOverlap,
  spotRatio,
  spotStack,
  spotOutOfReach,
  rivetPitch,
  facesApart,
  mouthMisfit,
  gasketPitch,
  rowWithoutLap,
  rowOffSheet,
  rowEdge,
  rowCrowded,
  rivetSize,
  rowBlocked,
  fastenerEdge,
  fastenerCrowded,
  fastenerGrip,
  fastenerHole,
  fastenerBlocked,
  frameTooLarge,

  // make
  defaultShop,
  noBrake,
  radiusTooSmall,
  dieMisfit,
  radiusNotMade,
  forceTooHigh,
  sheetTooThick,
  bendTooLong,
  angleOutOfReach,
  flangeTooShort,
  holeNearBend,
  fingersDoNotFit,
  largerThanCutter,
  holeTooSmall,
  narrowerThanKerf,
  onNoSheet,
  pinNotKept,
  noBendingOrder,
  orderNotDecided,

  // made
  farOff,
  scatter,
  standsOff,
  nextBend,
  recut,

  // aim
  notMet,
];
