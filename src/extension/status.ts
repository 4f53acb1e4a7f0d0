import * as vscode from 'vscode';
import { State, type BaseLanguageClient } from 'vscode-languageclient';
import { LANGUAGE } from './client.js';

/** A line in the language status: does the checking service run? */
export const showStatus = (client: BaseLanguageClient): vscode.Disposable => {
  const item = vscode.languages.createLanguageStatusItem('tubwright.status', { language: LANGUAGE });
  item.name = 'Tubwright';
  const show = (state: State): void => {
    item.busy = state === State.Starting;
    item.severity =
      state === State.Stopped ? vscode.LanguageStatusSeverity.Error : vscode.LanguageStatusSeverity.Information;
    item.text = {
      [State.Running]: 'Tubs are checked',
      [State.Starting]: 'Starting',
      [State.Stopped]: 'Tubs are not checked',
    }[state];
    item.detail = state === State.Stopped ? 'The checking service has stopped' : undefined;
    item.command =
      state === State.Stopped
        ? { title: 'Start Again', command: 'tubwright.restartChecks' }
        : { title: 'Open Preview', command: 'tubwright.openPreview' };
  };
  show(client.state);
  return vscode.Disposable.from(
    item,
    client.onDidChangeState(({ newState }) => show(newState)),
  );
};
