import { Preview } from './preview.js';

new Preview().receive();
