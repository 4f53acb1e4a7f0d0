import { AstUtils, type LangiumDocument } from 'langium';
import type { CodeLensProvider } from 'langium/lsp';
import type { CodeLens } from 'vscode-languageserver-types';
import type { Evaluation } from '../analyse.js';
import { isTubName, type TubFile } from '../generated/ast.js';
import type { TubServices } from '../services.js';
import { plain } from './plain.js';
import { workOutLens } from './work-out-action.js';
import { settingsOf } from '../settings.js';

/** Above the `tub` line: what the tub is made of, its preview and its export. */
export class TubCodeLenses implements CodeLensProvider {
  constructor(private readonly services: TubServices) {}

  async provideCodeLens(document: LangiumDocument): Promise<CodeLens[]> {
    const lenses = await settingsOf<{ readonly tub?: boolean }>(this.services.shared, 'lenses');
    const tub = (document.parseResult.value as TubFile).statements?.find(isTubName);
    const range = tub?.$cstNode?.range;
    if (lenses?.tub === false || !tub || !range) return [];
    const uri = AstUtils.getDocument(tub).uri.toString();
    const lens = (title: string, command: string, ...rest: readonly string[]): CodeLens => ({
      range,
      command: { title, command, arguments: [uri, ...rest] },
    });
    const analysis = this.services.analysis.Analyses.evaluationOf(document);
    if (analysis.tub.panels.length === 0) return [];
    return [
      ...workOutLens(analysis),
      lens('Preview', 'tubwright.openPreview'),
      lens('Export flat patterns', 'tubwright.exportFlats'),
      lens(summaryOf(analysis), 'tubwright.openPreview', 'flat'),
    ];
  }
}

const summaryOf = ({ stages }: Evaluation): string => {
  const parts = stages.parts().length;
  const bends = stages.shape().bends.length;
  const area = stages.shape().faces.reduce((sum, face) => sum + (face.usable ? face.area : 0), 0);
  return `${count(parts, 'part')}, ${count(bends, 'bend')}, ${plain(area / 1e6, 2)} m² wet`;
};

const count = (number: number, what: string): string => `${number} ${what}${number === 1 ? '' : 's'}`;
