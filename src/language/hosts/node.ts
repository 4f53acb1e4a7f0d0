/** Desktop host: files of the disk are read from it, all others through the editor. */
import { NodeFileSystem } from 'langium/node';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node.js';
import { ClientFiles, filesByScheme } from '../client-files.js';
import { startServer } from './start-server.js';

const connection = createConnection(ProposedFeatures.all);
startServer(connection, () => filesByScheme(NodeFileSystem.fileSystemProvider(), new ClientFiles(connection)));
