import { startEmbedded } from '#persistence/embedded/start.ts';

/** `node tests/support/hold-database.ts FOLDER`: runs the server of the folder until a signal comes. */
const server = await startEmbedded({ folder: process.argv[2] ?? '' });
process.stdout.write(`${JSON.stringify({ port: server.port, ownerUrl: server.ownerUrl })}\n`);
setInterval(() => undefined, 1000);
