/** Runs before each test: files of one worker share modules, and no test may see what another left in them. */
import { beforeEach } from 'vitest';
import { forgetAll } from '../../src/analysis/cache/lru-cache.js';

beforeEach(forgetAll);
