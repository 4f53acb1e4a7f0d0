/** A thread of Node that works on nests: a bundle of its own, small and soon ready. */
import { parentPort } from 'node:worker_threads';
import { doNestTask } from '../nest/nest-task.js';
import type { NestTask } from '../nest/nest-threads.js';

parentPort?.on('message', (task: NestTask) => doNestTask(task, (news) => parentPort?.postMessage(news)));
