/** Terminal, JSON, spreadsheet, paper and preview tell the same number of the same thing. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { csvFiles } from '../../../src/analysis/export/lists/csv.js';
import type { Block, Cell, Section } from '../../../src/analysis/export/traveller/layout/block.js';
import { jobOf, type Job } from '../../../src/analysis/export/traveller/job.js';
import { bendSection } from '../../../src/analysis/export/traveller/sections/bends.js';
import { fillSection } from '../../../src/analysis/export/traveller/sections/fill-test.js';
import { flatSection } from '../../../src/analysis/export/traveller/sections/flats.js';
import { hardwareSection } from '../../../src/analysis/export/traveller/sections/hardware.js';
import { partsSection } from '../../../src/analysis/export/traveller/sections/parts.js';
import { seamSection } from '../../../src/analysis/export/traveller/sections/seams.js';
import { unitsOf } from '../../../src/analysis/export/traveller/layout/units.js';
import { reportOf, reportText } from '../../../src/analysis/report/report.js';
import { bendScene } from '../../../src/analysis/scene/bend-scene.js';
import { flatScene } from '../../../src/analysis/scene/flat-scene.js';
import type { SceneEntry } from '../../../src/analysis/scene/scene-items.js';
import { waterScene } from '../../../src/analysis/scene/water/water-scene.js';
import { inMm } from '../../../src/analysis/model/wording.js';
import { bendText } from '../../../src/language/lsp/hover/bend-text.js';
import { analyseText } from '../../support/analyse-text.js';

const samples = join(import.meta.dirname, '../../../samples');
const units = unitsOf('metric');

const jobIn = (of: ReturnType<typeof jobOf>): Job => {
  for (;;) {
    const step = of.next();
    if (step.done) return step.value;
  }
};

/** Cells by the head of their column, of every table of a section. */
const tablesOf = (section: Section | undefined): Record<string, Cell>[][] =>
  (section?.blocks ?? [])
    .filter((block): block is Extract<Block, { kind: 'table' }> => block.kind === 'table')
    .map(({ columns, rows }) => rows.map((row) => Object.fromEntries(row.map((cell, i) => [columns[i].head, cell]))));

const csvRows = (text: string): Record<string, string>[] => {
  const [heads, ...rows] = text
    .trim()
    .split('\r\n')
    .map((line) => [...line.matchAll(/("(?:[^"]|"")*"|[^,]*)(?:,|$)/g)].map(([, cell]) => cell.replace(/^"|"$/g, '')));
  return rows.map((row) => Object.fromEntries(row.map((cell, i) => [heads[i], cell])));
};

describe.each(['herb-wash-basin', 'drip-pan'])('%s', (sample) => {
  const analysis = analyseText(readFileSync(join(samples, `${sample}.tub`), 'utf8'), {
    files: { 'shop.tub': readFileSync(join(samples, 'shop.tub'), 'utf8') },
  });
  const { stages } = analysis;
  const report = reportOf(stages);
  const terminal = reportText(report);
  const lists = new Map(
    [...csvFiles(stages)].map(({ name, content }) => [name.replace(/^.*-(\w+)\.csv$/, '$1'), csvRows(String(content))]),
  );
  const job = jobIn(jobOf(stages, units, 0));
  const factsBy = (entries: readonly SceneEntry[], kind: string): Map<string, string> =>
    new Map(
      entries.flatMap(({ item }) =>
        item.kind === kind && item.kind !== 'note' && item.told ? [[item.told.what, item.told.facts.join('; ')]] : [],
      ),
    );

  it('of parts', () => {
    const seen = factsBy(flatScene(stages), 'flat-part');
    const [paper] = tablesOf(partsSection(job));
    expect(report.parts.length).toBeGreaterThan(0);
    report.parts.forEach(({ name, flat, thickness_mm, quantity }, i) => {
      if (!flat) throw new Error(`${name} has no flat`);
      const { width_mm, height_mm, mass_kg, cut_length_mm } = flat;
      expect(lists.get('parts')?.[i]).toMatchObject({
        flat_width_mm: String(width_mm),
        flat_mass_kg: String(mass_kg),
        quantity: String(quantity),
      });
      const facts = seen.get(`Part ${name}`);
      for (const told of [
        `Thickness ${thickness_mm.toFixed(2)} mm`,
        `Pieces ${quantity}`,
        `Width ${width_mm.toFixed(1)} mm`,
        `Cut ${cut_length_mm.toFixed(1)} mm`,
        `Mass ${mass_kg.toFixed(3)} kg`,
      ])
        expect(facts).toContain(told);
      expect(paper[i]).toMatchObject({
        'Size, mm': `${width_mm.toFixed(1)} x ${height_mm.toFixed(1)}`,
        'Mass each': units.massOf(mass_kg),
        Pieces: String(quantity),
      });
      expect(terminal).toMatch(new RegExp(`${width_mm.toFixed(1)} +${height_mm.toFixed(1)} .*${mass_kg.toFixed(3)}`));
    });
  });

  it('of bends', () => {
    const seen = factsBy(flatScene(stages), 'flat-bend');
    const paper = job.flats.flatMap((flat) => tablesOf(flatSection(job, flat)).flat());
    expect(report.bends.length).toBeGreaterThan(0);
    report.bends.forEach(({ name, angle_deg, radius_mm, k, allowance_mm, force_kN }, i) => {
      const hover = bendText(analysis, stages.shape().bends[i]);
      for (const told of [
        `inside radius ${inMm(radius_mm)}, K ${Number(k.toFixed(3))}`,
        `allowance ${inMm(allowance_mm)}`,
      ])
        expect(hover).toContain(told);
      if (force_kN !== null) expect(hover).toContain(` ${Number(force_kN.toFixed(1))} kN (`);
      expect(lists.get('bends')?.[i]).toMatchObject({ angle_deg: String(angle_deg), k: String(k) });
      for (const told of [
        `Gauge reads ${angle_deg.toFixed(2)} deg`,
        `Radius ${radius_mm.toFixed(2)} mm`,
        `K ${k.toFixed(3)}`,
        `Allowance ${allowance_mm.toFixed(3)} mm`,
      ])
        expect(seen.get(`Bend ${name}`)).toContain(told);
      expect(paper.find(({ Between }) => String(Between).replace(/, \d+ in line$/, '') === name)).toMatchObject({
        'Gauge reads': `${angle_deg.toFixed(1)}\u00b0`,
        'Inside radius, mm': units.fine(radius_mm),
      });
    });
  });

  it('of strokes', () => {
    const seen = [...factsBy(bendScene(stages), 'bend-step').values()];
    const paper = job.flats.flatMap((flat) => tablesOf(bendSection(job, flat)).flat());
    const steps = report.making.sequence.flatMap((sequence) => sequence.steps);
    expect(steps.length).toBeGreaterThan(0);
    steps.forEach((step, i) => {
      expect(paper[i]).toMatchObject({
        Step: String(step.step),
        'Stop, mm': step.stop_distance_mm.toFixed(1),
        'Gauge reads': `${step.gauge_deg.toFixed(1)}\u00b0`,
      });
      const angle = `until it is ${Number(step.gauge_deg.toFixed(2))} deg`;
      if (!step.press_flat) expect(seen[i]).toContain(angle);
      if (step.stop_square) expect(seen[i]).toContain(`stop at ${Number(step.stop_distance_mm.toFixed(2))} mm`);
      expect(terminal.replaceAll('`', '')).toContain(seen[i].split('; ').at(-2));
    });
  });

  it('of seams and hardware', () => {
    const [paper] = tablesOf(seamSection(job));
    report.seams.forEach(({ gap, length_mm, bead }, i) => {
      expect(lists.get('seams')?.[i]).toMatchObject({
        length_mm: String(length_mm),
        gap_expected_mm: String(gap?.expected_mm ?? ''),
        bead_volume_mL: String(bead.volume_mL),
      });
      expect(paper[i]).toMatchObject({
        Length: units.longOf(length_mm),
        'Gap to expect, mm': gap ? units.fine(gap.expected_mm) : '-',
      });
    });
    const [bought = []] = tablesOf(hardwareSection(job));
    expect(bought.length).toBe(report.hardware.length);
    report.hardware.forEach(({ item, count, volume_mL }, i) => {
      expect(lists.get('hardware')?.[i]).toMatchObject({ item, count: String(count ?? '') });
      expect(String(bought[i].Item)).toContain(item);
      if (volume_mL !== null) expect(String(bought[i].Quantity)).toContain(units.smallVolumeOf(1000 * volume_mL));
    });
  });

  it('of the fill test', () => {
    const section = fillSection(job);
    const facts = section.blocks.flatMap((block) => (block.kind === 'facts' ? block.rows : []));
    const told = Object.fromEntries(facts.map(({ name, value }) => [name, value]));
    const { plan, mass } = { plan: report.fill_test, mass: report.mass };
    if (!plan) throw new Error(`${sample} has no fill test`);
    expect(told['Plug']).toBe(plan.plug.join(', '));
    expect(told['Fill to']).toContain(units.lengthOf(plan.fill_to_mm));
    expect(told['That is']).toContain(`${units.volumeOf(1e6 * plan.fill_L)} of water, ${units.massOf(plan.liquid_kg)}`);
    expect(told['All that the stand carries']).toBe(units.massOf(plan.on_stand_kg));
    expect(told['Tub empty']).toBe(units.massOf(mass.empty_kg));
    expect(told['Watch for']).toBe(`${plan.watch_min} minutes`);
    const seams = tablesOf(section).find(([row]) => row && 'Liquid over it' in row);
    expect(plan.watch.length).toBeGreaterThan(0);
    plan.watch.forEach(({ seam, lowest_mm, head_mm }, i) =>
      expect(seams?.[i]).toMatchObject({
        Between: seam,
        'Lowest point': units.lengthOf(lowest_mm),
        'Liquid over it': units.lengthOf(head_mm),
      }),
    );
    expect(terminal).toContain(`Fill ${plan.fill_L.toFixed(2)} L, to ${plan.fill_to_mm.toFixed(1)} mm`);
  });

  it('of outlets', () => {
    const seen = factsBy(waterScene(stages), 'water-spot');
    for (const { name, inflow_L_min, head_mm, capacity_L_min } of report.water.outlets) {
      expect(seen.get(`Outlet ${name}`)).toContain(`Inflow ${inflow_L_min.toFixed(2)} L/min`);
      expect(seen.get(`Outlet ${name}`)).toContain(`Takes ${capacity_L_min?.toFixed(1)} L/min`);
      expect(terminal).toMatch(new RegExp(`${name} +${inflow_L_min.toFixed(2)} +${head_mm?.toFixed(1)} `));
    }
  });

  it('of falls, pools and the lowest leak', () => {
    const entries = waterScene(stages);
    const seen = factsBy(entries, 'water-face');
    for (const { panel, inclination_deg, needed_deg } of report.water.slopes) {
      expect(seen.get(`Panel ${panel}`)).toContain(`Fall ${inclination_deg.toFixed(2)} deg`);
      expect(seen.get(`Panel ${panel}`)).toContain(`Needs ${needed_deg.toFixed(2)} deg`);
    }
    const pools = factsBy(entries, 'water-pool');
    expect(pools.size).toBe(report.water.pools.length);
    for (const { panel, depth_mm, volume_mL } of report.water.pools) {
      expect(pools.get(`Pool ${panel}`)).toContain(`Depth ${depth_mm?.toFixed(2)} mm`);
      expect(pools.get(`Pool ${panel}`)).toContain(`Volume ${volume_mL?.toFixed(1)} mL`);
    }
    const leak = factsBy(entries, 'water-spot').get('Lowest open place');
    if (report.leak_level_mm === null) expect(leak).toBeUndefined();
    else expect(leak).toContain(`Height ${report.leak_level_mm.toFixed(1)} mm`);
  });
});
