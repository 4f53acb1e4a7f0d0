import type { View } from '../../language/protocol.js';
import { BendsView } from './bends/bends-view.js';
import { ChoicesView } from './choices/choices-view.js';
import { FlatView } from './flat/flat-view.js';
import { HoursView } from './hours/hours-view.js';
import { MadeView } from './made/made-view.js';
import { NestView } from './nest/nest-view.js';
import { FoldedView } from './folded/folded-view.js';
import { WaterView } from './water/water-view.js';
import type { PreviewView, ViewEvents } from './view.js';

export const makeView = (view: View, events: ViewEvents): PreviewView => {
  switch (view) {
    case 'flat':
      return new FlatView(events);
    case 'folded':
      return new FoldedView(events);
    case 'water':
      return new WaterView(events);
    case 'hours':
      return new HoursView(events);
    case 'bends':
      return new BendsView(events);
    case 'nest':
      return new NestView(events);
    case 'choices':
      return new ChoicesView(events);
    case 'made':
      return new MadeView(events);
  }
};
