/** A thread of Node that works on nests: a bundle of its own, small and soon ready. */
import { parentPort } from 'node:worker_threads';
import { noTables } from '../../analysis/nest/tighten/shapes.js';
import { doNestTask } from '../nest/nest-task.js';
import type { NestTask } from '../nest/nest-threads.js';

// A thread works on one job and is ended with it.
const tables = noTables();
parentPort?.on('message', (task: NestTask) => doNestTask(task, (news) => parentPort?.postMessage(news), tables));
