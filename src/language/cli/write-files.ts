/** Writing an export: whole files or none, and never over a file that is not an earlier export of the same tub. */
import { mkdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { ExportFile } from '../../analysis/export/exporter.js';
import { isOwnExport } from '../../analysis/export/own-export.js';

export class CannotWrite extends Error {}

export interface WrittenFile {
  readonly name: string;
  readonly outcome: 'new' | 'replaced' | 'unchanged';
}

/**
 * Writes all files into the directory, which is made when missing. Looks at every existing file before the first is
 * written. Each goes to a temporary file first and is then renamed, so that no half file is ever seen.
 * Rejects with `CannotWrite` and one sentence.
 */
export const writeFiles = async (
  directory: string,
  tubName: string,
  files: readonly ExportFile[],
): Promise<WrittenFile[]> => {
  const plans = await Promise.all(files.map((file) => planOf(directory, tubName, file)));
  try {
    await mkdir(directory, { recursive: true });
    for (const { file, outcome } of plans)
      if (outcome !== 'unchanged') await replace(join(directory, file.name), file.content);
  } catch (error) {
    throw new CannotWrite(`Cannot write into ${directory}: ${reasonOf(error)}`);
  }
  return plans.map(({ file, outcome }) => ({ name: file.name, outcome }));
};

interface Plan {
  readonly file: ExportFile;
  readonly outcome: WrittenFile['outcome'];
}

const planOf = async (directory: string, tubName: string, file: ExportFile): Promise<Plan> => {
  const path = join(directory, file.name);
  const existing = await contentOf(path);
  if (existing === undefined) return { file, outcome: 'new' };
  if (existing.equals(bytesOf(file.content))) return { file, outcome: 'unchanged' };
  if (isOwnExport(existing.toString('latin1'), tubName)) return { file, outcome: 'replaced' };
  throw new CannotWrite(`${path} is not an earlier export of ${tubName} and is left alone: nothing is written`);
};

const contentOf = async (path: string): Promise<Buffer | undefined> => {
  try {
    return await readFile(path);
  } catch (error) {
    if (isCode(error, 'ENOENT') || isCode(error, 'ENOTDIR')) return undefined;
    throw new CannotWrite(`Cannot look at ${path}: ${reasonOf(error)}`);
  }
};

const replace = async (path: string, content: ExportFile['content']): Promise<void> => {
  const temporary = `${path}.${process.pid}.part`;
  try {
    await writeFile(temporary, bytesOf(content));
    await rename(temporary, path);
  } catch (error) {
    await rm(temporary, { force: true });
    throw error;
  }
};

const bytesOf = (content: ExportFile['content']): Buffer =>
  typeof content === 'string' ? Buffer.from(content, 'utf8') : Buffer.from(content);

const isCode = (error: unknown, code: string): boolean =>
  error instanceof Error && 'code' in error && error.code === code;

const REASONS: Readonly<Record<string, string>> = {
  EACCES: 'no permission',
  EPERM: 'no permission',
  EROFS: 'it cannot be written to',
  ENOSPC: 'no room left',
  EEXIST: 'a file of that name is in the way',
  ENOTDIR: 'a file of that name is in the way',
  EISDIR: 'a folder of that name is in the way',
};

const reasonOf = (error: unknown): string => {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return REASONS[code] ?? (error instanceof Error ? error.message : String(error));
};
