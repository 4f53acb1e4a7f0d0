/** `npm run fuzz -- --minutes N [--seed N] [--workers N] [--cases N] [--kind text|requests|export]`: random texts and edits until the time is over. */
import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { Dice } from './dice.js';
import type { Kind, Verdict } from './job.js';
import { Judge } from './judge.js';
import { minimised } from './minimise.js';
import { mutated, written } from './mutate.js';
import { Pool } from './pool.js';
import { corpus, fixtures, inCorpus, samples } from './seeds.js';
import { Tally } from './tally.js';

/** ms of processor time that a text of up to 4 kB may take. */
const SLOW = 2000;
/** MB that the process may hold. */
const MOST_MEMORY = 300;
const POOL = 400;
/** Longer samples are not changed. */
const SHORT = 4000;

const { values } = parseArgs({
  options: {
    minutes: { type: 'string', default: '3' },
    seed: { type: 'string', default: '1' },
    workers: { type: 'string', default: '2' },
    cases: { type: 'string', default: 'Infinity' },
    kind: { type: 'string' },
  },
});
const [minutes, seed, workers] = [Number(values.minutes), Number(values.seed), Number(values.workers)];
const end = Date.now() + minutes * 60_000;
const isOver = (): boolean => Date.now() >= end;

const say = (line: string): void => void process.stdout.write(`${line}\n`);
const tally = new Tally();
const script = path.join(import.meta.dirname, 'worker.mjs');
const seeds = [...corpus(), ...fixtures()];
const pool = new Pool(
  [...seeds, ...samples()].map(({ text }) => text).filter((text) => text.length <= SHORT),
  POOL,
);

const judgeOne = async (judge: Judge, kind: Kind, text: string, at: number): Promise<Verdict> => {
  const verdict = await judge.ask({ kind, text, seed: at });
  tally.add(verdict);
  const faults = [...verdict.faults, ...(await tooMuch(judge, kind, text, at, verdict))];
  for (const fault of faults) if (tally.fault(fault)) await keep(judge, kind, text, at, fault);
  return verdict;
};

/** Slow or large once may be the process or the machine: only what is so again, alone, is the text. */
const tooMuch = async (
  judge: Judge,
  kind: Kind,
  text: string,
  at: number,
  { cpuMs, memory }: Verdict,
): Promise<readonly string[]> => {
  const faults: string[] = [];
  if (cpuMs > SLOW) {
    const again = [await judge.ask({ kind, text, seed: at }), await judge.ask({ kind, text, seed: at })];
    const least = Math.min(...again.map((each) => each.cpuMs || Infinity), cpuMs);
    tally.time(least, text);
    if (least > SLOW) faults.push(`slow ${kind}`);
  } else tally.time(cpuMs, text);
  if (memory > MOST_MEMORY) {
    judge.end();
    const alone = await judge.ask({ kind, text, seed: at });
    tally.memory(alone.memory, text);
    if (alone.memory > MOST_MEMORY) faults.push(`large ${kind}`);
  } else tally.memory(memory, text);
  return faults;
};

const keep = async (judge: Judge, kind: Kind, text: string, at: number, fault: string): Promise<void> => {
  say(`found ${fault}`);
  const fails = async (shorter: string): Promise<boolean> => {
    const verdict = await judge.ask({ kind, text: shorter, seed: at });
    if (fault.startsWith('slow')) return verdict.cpuMs > SLOW;
    if (fault.startsWith('large')) return verdict.memory > MOST_MEMORY;
    return verdict.faults.includes(fault);
  };
  const shortest = kind === 'requests' ? text : await minimised(text, fails);
  const name = `${fault
    .toLowerCase()
    .replace(/[^a-z]+/g, '-')
    .slice(0, 60)}-${at}.tub`;
  writeFileSync(inCorpus(name), shortest);
  say(`  kept as ${name}, ${shortest.length} characters, seed ${at}`);
};

const kindOf = (dice: Dice): Kind => {
  if (values.kind !== undefined) return values.kind as Kind;
  return dice.onceIn(3) ? 'requests' : dice.onceIn(25) ? 'export' : 'text';
};

/** Every worker takes every so many-th case, so that a case is the same whoever else runs. */
const work = async (first: number): Promise<void> => {
  const judge = new Judge(script);
  for (let i = first; i < seeds.length && !isOver(); i += workers) await judgeOne(judge, 'text', seeds[i].text, i);
  for (let i = first; i < Number(values.cases) && !isOver(); i += workers) {
    const at = seed * 10_000_000 + i;
    const dice = new Dice(at);
    const text = dice.onceIn(6) ? written(dice) : mutated(pool.draw(dice), dice, pool.all);
    const verdict = await judgeOne(judge, kindOf(dice), text, at);
    pool.learn(text, verdict.marks, dice);
  }
  judge.end();
};

await Promise.all(Array.from({ length: workers }, (_, i) => work(i)));
say(`seed ${seed}, ${minutes} minutes, ${workers} processes; ${pool.marks} pairs of findings seen`);
say(tally.toString());
process.exitCode = tally.faults.size === 0 ? 0 : 1;
