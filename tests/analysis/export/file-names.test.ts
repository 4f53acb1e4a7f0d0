import { describe, expect, it } from 'vitest';
import { exportFormats } from '../../../src/analysis/export/exporter.js';
import {
  fileNamesOf,
  fileStem,
  partFileNames,
  sheetFileName,
  templateFileNames,
} from '../../../src/analysis/export/file-names.js';

const bytesIn = (text: string): number => Buffer.byteLength(text, 'utf8');

describe('the name of a tub in the names of its files', () => {
  it.each([
    ['Bottle-rinse basin', 'Bottle-rinse-basin'],
    ['Łódź – 水槽 №1 ⌀', 'Łódź-水槽-№1-⌀'],
    ['Ванна', 'Ванна'],
    ['pan v1.2', 'pan-v1.2'],
    ['  a/b\\c:d*e?f"g<h>i|j  ', 'a-b-c-d-e-f-g-h-i-j'],
    ['../../etc/passwd', 'etc-passwd'],
    ['.hidden', 'hidden'],
    ['ends in dots...', 'ends-in-dots'],
    ['tab\tand\u0000null\u202eback', 'tab-and-null-back'],
    ['???', 'tub'],
    ['', 'tub'],
    ['lone \ud800 half', 'lone-half'],
  ])('%j becomes %j', (name, stem) => {
    expect(fileStem(name)).toBe(stem);
  });

  // Microsoft, "Naming Files, Paths, and Namespaces": these names, also with any ending.
  it.each(['CON', 'nul', 'Aux', 'prn', 'COM1', 'lpt9', 'com¹', 'con.step', 'NUL.1.2'])(
    '%s is a device elsewhere and gets a word before it',
    (name) => {
      expect(fileStem(name)).toBe(`tub-${name}`);
    },
  );

  it.each(['console', 'null', 'com10', 'conduit.1'])('%s is none', (name) => expect(fileStem(name)).toBe(name));

  it('is the same however accents were typed', () => {
    expect(fileStem('Łódź'.normalize('NFD'))).toBe(fileStem('Łódź'.normalize('NFC')));
  });

  it.each(['a', 'ж', '槽', '🛁'])(
    'with 230 letters %s leaves every file name within 255 bytes, and tells tubs apart',
    (letter) => {
      const names = [letter.repeat(230), `${letter.repeat(229)}b`];
      const stems = names.map(fileStem);
      expect(new Set(stems).size).toBe(2);
      for (const name of names) {
        const files = [
          ...partFileNames(name, [name, 'template-x']).map((file) => `${file}.dxf`),
          ...templateFileNames(name, [name]).map((file) => `${file}.dxf`),
          `${sheetFileName(name, 1000)}.dxf`,
        ];
        for (const file of files) expect(bytesIn(file), file).toBeLessThanOrEqual(255);
        // A letter cut in two would come back as the sign for one that cannot be read.
        for (const file of files) expect(Buffer.from(file).toString()).toBe(file);
      }
    },
  );
});

describe('names of drawings', () => {
  it('a part, a template and a nested sheet never share one', () => {
    const parts = partFileNames('pan', ['template-a', 'sheet-1', 'part-sheet-1', 'Sheet-1', 'a', 'A', 'a-2']);
    const others = [...templateFileNames('pan', ['a', 'A']), sheetFileName('pan', 1)];
    const all = [...parts, ...others].map((name) => name.toLowerCase());
    expect(new Set(all).size).toBe(all.length);
  });
});

describe('names that an earlier export may have given', () => {
  const files: Readonly<Record<string, string>> = {
    'pan-floor.dxf': 'dxf',
    'pan-floor.svg': 'svg',
    'pan-sheet-2.dxf': 'nest',
    'pan-template-back.dxf': 'template',
    'pan-part-sheet-1.dxf': 'dxf',
    'pan-traveller.pdf': 'pdf',
    'pan-templates.pdf': 'pdf',
    'pan-sheet.pdf': 'pdf',
    'pan-card.pdf': 'card',
    'pan-traveller.html': 'html',
    'pan-sheet.html': 'html',
    'pan.step': 'step',
    'pan.stl': 'stl',
    'pan.glb': 'glb',
    'pan-bends.csv': 'csv',
  };

  it.each(exportFormats)('%s: its own and no other', (format) => {
    expect(Object.values(files), 'a name of it above').toContain(format);
    const names = fileNamesOf('pan', [format]);
    expect(Object.keys(files).filter((name) => names.test(name))).toEqual(
      Object.keys(files).filter((name) => files[name] === format),
    );
  });

  it('are those of this tub', () => {
    const names = fileNamesOf('a.b (水)', exportFormats);
    expect(names.test('a.b-水-floor.dxf')).toBe(true);
    expect(
      ['aXb-水-floor.dxf', 'a.b-floor.dxf', 'a.b-水-notes.txt', 'x-a.b-水.step'].some((name) => names.test(name)),
    ).toBe(false);
  });
});
