/**
 * Tables of published values beside this file, a row each: what is given, what comes out and how far a result may lie from it. `how`:
 * found in the source or a reproduction of it (textbooks as the companions of the FOSSEE project print them), derived
 * from a formula, or recalled from memory. Each is run or excused by its name.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';

export type Given = Readonly<Record<string, number>>;

interface PublishedCase {
  readonly id: string;
  readonly given: Given;
  readonly value: number;
  readonly off: number;
  readonly told: string;
}

/** In the unit of its row, or whether it holds. */
type Run = (given: Given, value: number) => number | boolean;

/** A run by itself, or with a wider allowance and why. */
export type Runs = Readonly<
  Record<string, Run | { readonly run: Run; readonly off: number; readonly because: string }>
>;

/** By reason, the names of those that the product cannot be held to. */
export type Excused = Readonly<Record<string, readonly string[]>>;

const casesIn = (table: string): readonly PublishedCase[] => {
  const [, ...rows] = readFileSync(join(import.meta.dirname, `${table}.tsv`), 'utf8')
    .trimEnd()
    .split('\n');
  return rows.map((row) => {
    const [id, quantity, given, value, unit, off, how, source] = row.split('\t');
    const pairs = given.split(' ').flatMap((pair) => (pair === '-' ? [] : [pair.split('=')]));
    return {
      id,
      given: Object.fromEntries(pairs.map(([name, number]) => [name, Number(number)])),
      value: Number(value),
      off: off.endsWith(' x') ? Number(off.slice(0, -2)) * Math.abs(Number(value)) : Number(off),
      told: `${id}, ${quantity}: ${value} ${unit} (${source}, ${how})`,
    };
  });
};

export const holdToCases = (table: string, runs: Runs, excused: Excused): void => {
  const cases = casesIn(table);

  test(`every published case of ${table} is run or excused`, () => {
    const named = [...Object.keys(runs), ...Object.values(excused).flat()].sort();
    expect(named).toEqual(cases.map(({ id }) => id).sort());
    expect(Object.values(runs).filter((run) => typeof run !== 'function' && run.because === '')).toEqual([]);
  });

  test(`those of ${table} that are run come out as published`, () => {
    const missed = cases.flatMap(({ id, given, value, off, told }) => {
      const entry = runs[id];
      if (entry === undefined) return [];
      const { run, off: allowed } = typeof entry === 'function' ? { run: entry, off } : entry;
      const found = run(given, value);
      const holds = typeof found === 'boolean' ? found : Math.abs(found - value) <= allowed;
      return holds ? [] : [`${told}: ${found}`];
    });
    expect(missed).toEqual([]);
  });
};

/** Where a function that grows reaches a value, by halving. */
export const solve = (grows: (x: number) => number, value: number, [from, to]: readonly [number, number]): number => {
  let [low, high] = [from, to];
  for (let i = 0; i < 100; i++) {
    const middle = (low + high) / 2;
    if (grows(middle) < value) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
};
