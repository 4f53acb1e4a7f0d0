import * as vscode from 'vscode';

/** Steps of the walkthrough, which are ticked when they have been done, not when they were tried. */
export const tick = (step: 'sampleOpened' | 'previewShown' | 'findingExplained' | 'filesExported'): void => {
  void vscode.commands.executeCommand('setContext', `tubwright.${step}`, true);
};
