/** Where files lie once every link is followed: what `use` may reach is judged by that, not by how a path reads. */
import type { FileSystemProvider, LangiumDocuments, URI } from 'langium';

/** A file system with links in it that says where they lead. */
export interface LinkedFiles extends FileSystemProvider {
  /** Rejects where there is no such file. */
  realUri(uri: URI): Promise<URI>;
}

export const isLinked = (files: FileSystemProvider): files is LinkedFiles => 'realUri' in files;

/** Files that links lead to from inside the open folders though they lie outside, by document store. */
const outside = new WeakMap<LangiumDocuments, Set<string>>();

export const leadsOutside = (documents: LangiumDocuments, uri: URI): boolean =>
  outside.get(documents)?.has(uri.toString()) ?? false;

/** Keeps where a file was found to lie. */
export const keepPlace = (documents: LangiumDocuments, uri: URI, isOutside: boolean): void => {
  let known = outside.get(documents);
  if (!known) outside.set(documents, (known = new Set()));
  if (isOutside) known.add(uri.toString());
  else known.delete(uri.toString());
};
