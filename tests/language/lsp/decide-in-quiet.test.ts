import { expect, test } from 'vitest';
import type { Diagnostic } from 'vscode-languageserver-types';
import { connectInProcess } from '../../support/lsp-client.js';

const legs = Array.from({ length: 44 }, (_, i) => `  panel leg${i} 60 ${i % 2 ? 'falling' : 'rising'} 3 deg`).join(
  '\n',
);
const text = `units mm
sheet skin = stainless 18 ga radius 1.6
strip floor of skin from (0, 0, 0) heading front across right 100 {
${legs}
}
`;

test('what a keystroke has no time for is said to be open, and decided once nobody types', async () => {
  const client = await connectInProcess();
  const shown: (readonly Diagnostic[])[] = [];
  const areBothShown = new Promise<void>((resolve) => {
    client.onNotification('textDocument/publishDiagnostics', ({ diagnostics }: { diagnostics: Diagnostic[] }) => {
      shown.push(diagnostics);
      if (shown.length === 2) resolve();
    });
  });
  await client.notify('textDocument/didOpen', {
    textDocument: { uri: 'memory:/tubs/long.tub', languageId: 'tub', version: 1, text },
  });
  await areBothShown;
  await client.close();
  const open = ({ code }: Diagnostic): boolean => code === 'make/order-not-decided';
  expect(shown.map((diagnostics) => diagnostics.filter(open).map(({ severity }) => severity))).toEqual([[3], []]);
  expect(shown[1]).toEqual(shown[0].filter((each) => !open(each)));
});
