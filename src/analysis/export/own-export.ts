/** How an exported file shows whose export it is, so that no other file is ever replaced by one. */

/** `Bottle-rinse basin` becomes `bottle-rinse-basin`: safe in a file name on every system. */
export const fileStem = (name: string): string => {
  const stem = name
    .toLowerCase()
    .replace(/[^a-z0-9._]+/g, '-')
    .replace(/^[-.]+|[-.]+$/g, '');
  return stem === '' ? 'tub' : stem;
};

/**
 * Plain ASCII text that every exported file of a tub holds somewhere: in a comment, a file header or a column name.
 * Most programs drop it when they save the file anew, which then counts as theirs.
 */
export const exportMarker = (tubName: string): string => `tubwright-export ${fileStem(tubName)};`;

/** Does a file with this content (bytes as Latin-1 or UTF-8 text) come from an export of that tub? */
export const isOwnExport = (content: string, tubName: string): boolean => content.includes(exportMarker(tubName));
