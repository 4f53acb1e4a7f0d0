import * as vscode from 'vscode';
import type { PreviewState } from '../../language/protocol.js';

/**
 * The page of the preview. Nothing but its own script and style sheet runs or loads: no network, no inline code; images
 * only from data that the page itself made (for saving a picture).
 */
export const previewPage = (webview: vscode.Webview, extensionUri: vscode.Uri, state: PreviewState): string => {
  const nonce = newNonce();
  const file = (name: string): string =>
    webview.asWebviewUri(vscode.Uri.joinPath(extensionUri, 'dist', name)).toString();
  const policy = [
    "default-src 'none'",
    `script-src 'nonce-${nonce}'`,
    `style-src ${webview.cspSource}`,
    'img-src data:',
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="stylesheet" href="${file('webview-style.css')}">
<title>Tubwright preview</title>
</head>
<body data-uri="${escapeAttribute(state.uri)}" data-view="${state.view}">
<script nonce="${nonce}" src="${file('webview.js')}"></script>
</body>
</html>`;
};

const newNonce = (): string => {
  const bytes = crypto.getRandomValues(new Uint8Array(18));
  return btoa(String.fromCharCode(...bytes)).replace(/[+/=]/g, '');
};

const escapeAttribute = (text: string): string =>
  text.replace(/[&<>"']/g, (character) => `&#${character.charCodeAt(0)};`);
