import { EmptyFileSystem } from 'langium';
import { describe, expect, it } from 'vitest';
import { createTubServices } from '../../src/language/tub-module.js';
import { warmUp, warmUpText } from '../../src/language/warm-up.js';
import { analyseText } from '../support/analyse-text.js';

describe('the analyses that warm the server up', () => {
  it('are of a sound text that every stage has something to do with', () => {
    const { findings, stages } = analyseText(warmUpText(0));
    expect(findings.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(stages.flats().filter(Boolean)).toHaveLength(9);
    expect(stages.joints().looseFlats).not.toEqual([]);
    expect(stages.water().basins()).not.toEqual([]);
    expect(stages.water().flows()).not.toEqual([]);
  });

  it('differ from one to the next, as edits do', () => {
    expect(warmUpText(1)).not.toBe(warmUpText(2));
    expect(analyseText(warmUpText(149)).findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  it('wait while somebody types, and leave no document behind', async () => {
    const services = createTubServices(EmptyFileSystem);
    let asked = 0;
    let isDone = false;
    const warming = warmUp(services, () => ++asked > 3, 5).then(() => {
      isDone = true;
    });
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(isDone).toBe(false);
    expect(asked).toBeLessThan(4);
    await warming;
    expect(services.shared.workspace.LangiumDocuments.all.toArray()).toEqual([]);
  });
});
