import { memoBy } from '../../cache/memo.js';
import { toPlane } from '../../geometry/frame.js';
import { distanceToSegment } from '../../geometry/polygon.js';
import type { Tub } from '../../model/tub.js';
import { inMm, named } from '../../model/wording.js';
import { dividersOf, type Dividers } from '../../shape/account/dividers.js';
import type { Shape } from '../../shape/shape.js';
import type { Rule, RuleFinding } from '../rule.js';

export const outletInside: Rule = {
  code: 'drain/outlet-inside',
  severity: 'error',
  *check({ tub, shape }): Iterable<RuleFinding> {
    if (tub.outlets.length === 0) return;
    yield* noOpenEdge(tub, shape());
    // What holds an outlet is taken for the tub itself: asked without them, a divider is one again.
    const dividers = dividersOf(withoutOutlets(tub), shape());
    if (dividers.size === 0) return;
    yield* stoodOn(tub, shape(), dividers);
    for (const { name, at, panel } of tub.outlets) {
      if (!dividers.has(panel)) continue;
      const { name: divider, at: dividerAt } = tub.panels[panel];
      yield {
        message: `Outlet ${named(name)} lies in ${named(divider)}, which has the tub on both sides; what leads into the next chamber needs to be a hole or a cutout`,
        at,
        about: [name, divider],
        related: [{ at: dividerAt, message: 'An outlet is where the liquid leaves the tub' }],
        values: {},
      };
    }
  },
};

/** Outlets that a divider stands across: each side takes part of the hole, and metal lies over it. */
function* stoodOn(tub: Tub, { faces }: Shape, dividers: Dividers): Iterable<RuleFinding> {
  for (const { face, feet } of dividers.values()) {
    for (const [{ start, end }, foot] of feet) {
      const { frame } = faces[foot.face];
      for (const { name, at, panel, center, diameter, weir } of tub.outlets) {
        const needed = diameter / 2;
        if (panel !== foot.face || weir || needed <= 0) continue;
        const apart = distanceToSegment(toPlane(frame, center), toPlane(frame, start), toPlane(frame, end));
        if (apart >= needed) continue;
        const { name: divider, at: dividerAt } = tub.panels[face];
        yield {
          message: `Outlet ${named(name)} lies under ${named(divider)}, which stands ${inMm(apart, needed)} from its middle; it needs to be ${inMm(needed, apart)} away at least, all on one side`,
          at,
          about: [name, divider],
          related: [{ at: dividerAt, message: 'The panel that stands across it' }],
          values: { apart_mm: apart, needed_mm: needed },
        };
      }
    }
  }
}

const withoutOutlets = memoBy((tub: Tub): Tub => ({ ...tub, outlets: [] }));

/** Spouts over an edge that another panel goes on from, or over one that is an outlet already. */
function* noOpenEdge(tub: Tub, { faces }: Shape): Iterable<RuleFinding> {
  const first = new Map<string, string>();
  for (const { name, at, panel, spout } of tub.outlets) {
    if (!spout || !faces[panel].usable) continue;
    const { name: panelName, at: panelAt } = tub.panels[panel];
    const own = faces[panel].stretches[faces[panel].panelEdge.indexOf(spout.edge)] ?? [];
    const other = first.get(`${panel} ${spout.edge}`);
    first.set(`${panel} ${spout.edge}`, other ?? name);
    if (other === undefined && !own.every(({ mates }) => mates.length > 0)) continue;
    yield {
      message:
        other === undefined
          ? `Outlet ${named(name)} runs over an edge of ${named(panelName)} that another panel goes on from; it needs a free edge`
          : `Outlet ${named(name)} runs over an edge of ${named(panelName)} that ${named(other)} is stated over already; an edge needs to be one outlet`,
      at,
      about: [name, panelName],
      related: [{ at: panelAt, message: 'The panel whose edge it is' }],
      values: {},
    };
  }
}
