import type { Count, Verdict } from './job.js';

/** What a run has tried, and the most that one text asked for. */
export class Tally {
  private readonly counts = new Map<Count, number>();
  slowest = { cpuMs: 0, text: '' };
  largest = { memory: 0, text: '' };
  readonly faults = new Map<string, number>();

  add({ counts }: Verdict): void {
    for (const [what, count] of Object.entries(counts)) {
      const key = what as Count;
      this.counts.set(key, (this.counts.get(key) ?? 0) + count);
    }
  }

  time(cpuMs: number, text: string): void {
    if (cpuMs > this.slowest.cpuMs) this.slowest = { cpuMs, text };
  }

  memory(memory: number, text: string): void {
    if (memory > this.largest.memory) this.largest = { memory, text };
  }

  /** True the first time. */
  fault(fault: string): boolean {
    const before = this.faults.get(fault) ?? 0;
    this.faults.set(fault, before + 1);
    return before === 0;
  }

  toString(): string {
    const tried = [...this.counts].map(([what, count]) => `${count} ${what}`).join(', ');
    const most = `at most ${this.slowest.cpuMs.toFixed(0)} ms for one text, ${this.largest.memory.toFixed(0)} MB in all`;
    const faults = [...this.faults].map(([fault, count]) => `  ${count} x ${fault}`);
    return [
      `tried ${tried}`,
      most,
      ...(faults.length === 0 ? ['no faults'] : [`${faults.length} kinds of fault:`, ...faults]),
    ].join('\n');
  }
}
