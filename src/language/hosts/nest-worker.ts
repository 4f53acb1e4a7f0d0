/** A thread of Node that works on nests: a bundle of its own, small and soon ready. */
import { constants, setPriority } from 'node:os';
import { parentPort, workerData } from 'node:worker_threads';
import { noTables } from '../../analysis/nest/tighten/shapes.js';
import { doNestTask } from '../nest/nest-task.js';
import type { GiveWay } from './node-threads.js';
import type { NestTask } from '../nest/nest-threads.js';

// Of Linux alone is it known that this lowers the thread and not the server with it.
if (workerData === ('to others' satisfies GiveWay) && process.platform === 'linux')
  setPriority(constants.priority.PRIORITY_BELOW_NORMAL);

// A thread works on one job and is ended with it.
const tables = noTables();
parentPort?.on('message', (task: NestTask) => doNestTask(task, (news) => parentPort?.postMessage(news), tables));
