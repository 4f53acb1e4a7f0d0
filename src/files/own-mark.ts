/** How an exported file shows whose export it is, so that no other file is ever replaced by one. */

/**
 * Plain ASCII text that every exported file of a tub holds somewhere, in a comment or a file header; the lists for
 * spreadsheets name the tub in every row instead. Most programs drop it when they save the file anew, which then counts
 * as theirs.
 */
export const exportMark = (tubName: string): string => `tubwright-export ${nameHash(tubName)};`;

/** Beside it where a file is named by what is in it: under another name it is somebody's copy. `name`: without its ending. */
export const fileMark = (name: string): string => `file ${nameHash(name)};`;

/** A cell of a list for spreadsheets (RFC 4180): quotes where needed. */
export const csvCell = (text: string): string => (/[",\r\n]/.test(text) ? `"${text.replace(/"/g, '""')}"` : text);

/**
 * Does a file with these bytes come from an export of that tub? `listHeads`: the first lines that lists have; a list
 * without a row holds nothing of anyone. `fileName`: given, a copy that was made under that name is nobody's export.
 */
export const isOwnExport = (
  bytes: Uint8Array,
  tubName: string,
  listHeads: readonly string[],
  fileName?: string,
): boolean => {
  // Latin-1 keeps every byte a character: the mark is plain ASCII in all formats, PDF and STL included.
  const text = new TextDecoder('latin1').decode(bytes);
  const mark = exportMark(tubName);
  if (text.includes(mark)) return fileName === undefined || !isCopy(text.slice(text.indexOf(mark)), mark, fileName);
  if (!listHeads.some((head) => startsWith(bytes, head))) return false;
  const [head, ...rows] = new TextDecoder().decode(bytes).split('\r\n');
  if (rows.pop() !== '' || !listHeads.includes(head)) return false;
  return rows.every((row) => row.startsWith(`${csvCell(tubName)},`));
};

const FILE_MARK = /^ (file [\da-f]{16};)/;

const isCopy = (text: string, mark: string, fileName: string): boolean => {
  const [, known] = FILE_MARK.exec(text.slice(mark.length, mark.length + 40)) ?? [];
  return known !== undefined && known !== fileMark(fileName.replace(/\.[^.]*$/, ''));
};

const startsWith = (bytes: Uint8Array, ascii: string): boolean =>
  bytes.length >= ascii.length && [...ascii].every((letter, i) => bytes[i] === letter.charCodeAt(0));

/**
 * 16 hex digits that differ for different names: FNV-1a over 64 bits of the name in UTF-8, composed, so that it is the
 * same however its accents were typed. Source: IETF RFC 9923, "The FNV Non-Cryptographic Hash Algorithm".
 */
export const nameHash = (name: string): string => {
  let hash = 0xcbf29ce484222325n;
  for (const byte of new TextEncoder().encode(name.normalize('NFC')))
    hash = BigInt.asUintN(64, (hash ^ BigInt(byte)) * 0x100000001b3n);
  return hash.toString(16).padStart(16, '0');
};
