import { tubText } from './tub-text.js';
process.stdout.write(tubText(Number(process.env.PANELS ?? 50)));
