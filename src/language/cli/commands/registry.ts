import type { CommandLine } from '../command.js';
import { check } from './check.js';
import { completions } from './completions.js';
import { explain } from './explain.js';
import { exportCommand } from './export.js';
import { fmt } from './fmt.js';
import { report } from './report.js';
import { solve } from './solve.js';

/** All commands, in the order in which the usage shows them. */
export const commands: readonly CommandLine[] = [check, report, solve, exportCommand, fmt, explain];

/** That which knows all the others is none of them. */
export const allCommands: readonly CommandLine[] = [...commands, completions(commands)];
