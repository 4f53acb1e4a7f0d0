/** How an exported file shows whose export it is, so that no other file is ever replaced by one. */

/** `Bottle-rinse basin` becomes `Bottle-rinse-basin`: safe in a file name on every system. */
export const fileStem = (name: string): string => {
  const stem = name.replace(/[^A-Za-z0-9._]+/g, '-').replace(/^[-.]+|[-.]+$/g, '');
  return stem === '' ? 'tub' : stem;
};

/** The same names, numbered where two differ only in case or not at all: some file systems take those for one. */
export const distinctNames = (names: readonly string[]): string[] => {
  const used = new Set<string>();
  return names.map((name) => {
    let distinct = name;
    for (let n = 2; used.has(distinct.toLowerCase()); n++) distinct = `${name}-${n}`;
    used.add(distinct.toLowerCase());
    return distinct;
  });
};

/** Characters of a tub's name in the marker: with the rest it fits the 80 bytes that the shortest file header has. */
const MARKED_NAME = 60;

/**
 * Plain ASCII text that every exported file of a tub holds somewhere: in a comment, a file header or a column name.
 * Most programs drop it when they save the file anew, which then counts as theirs.
 */
export const exportMarker = (tubName: string): string =>
  `tubwright-export ${fileStem(tubName).toLowerCase().slice(0, MARKED_NAME)};`;

/** Does a file with this content (bytes as Latin-1 or UTF-8 text) come from an export of that tub? */
export const isOwnExport = (content: string, tubName: string): boolean => content.includes(exportMarker(tubName));
