import * as vscode from 'vscode';

/** One box of a walk. */
export interface WalkStep {
  readonly title: string;
  readonly prompt: string;
  readonly placeholder: string;
  readonly value: string;
}

type Validate = (step: number, typed: string) => Promise<vscode.InputBoxValidationMessage | undefined>;

/** What was typed, by step; undefined: the walk was stopped before. Stopped with Escape it keeps what was entered until then. */
export const walk = async (steps: readonly WalkStep[], validate: Validate): Promise<(string | undefined)[]> => {
  const typed: (string | undefined)[] = steps.map(() => undefined);
  let step = 0;
  while (step < steps.length) {
    const at = step;
    const answer = await ask(
      { ...steps[at], value: typed[at] ?? steps[at].value },
      { step: at + 1, of: steps.length },
      (text) => validate(at, text),
    );
    if (answer === 'stop') break;
    if (answer !== 'back') typed[at] = answer.text;
    step += answer === 'back' ? -1 : 1;
  }
  return typed;
};

const ask = (
  { title, prompt, placeholder, value }: WalkStep,
  { step, of }: { readonly step: number; readonly of: number },
  validate: (typed: string) => Promise<vscode.InputBoxValidationMessage | undefined>,
): Promise<{ readonly text: string } | 'back' | 'stop'> =>
  new Promise((resolve) => {
    const box = vscode.window.createInputBox();
    Object.assign(box, { title, prompt, placeholder, value, step, totalSteps: of, ignoreFocusOut: true });
    box.buttons = step > 1 ? [vscode.QuickInputButtons.Back] : [];
    const told = async (): Promise<boolean> => {
      const text = box.value;
      const message = await validate(text);
      if (box.value === text) box.validationMessage = message;
      return message?.severity !== vscode.InputBoxValidationSeverity.Error;
    };
    const end = (answer: { readonly text: string } | 'back' | 'stop'): void => {
      resolve(answer);
      box.dispose();
    };
    box.onDidChangeValue(() => void told());
    box.onDidTriggerButton(() => end('back'));
    box.onDidAccept(async () => {
      const { value: text } = box;
      if (await told()) end({ text });
    });
    box.onDidHide(() => end('stop'));
    box.show();
  });
