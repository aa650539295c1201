import { startEmbedded } from '#persistence/embedded/start.ts';
import { startThrowAway } from '#persistence/embedded/throw-away.ts';

/**
 * `node tests/support/hold-database.ts FOLDER|throw-away`: runs the server of the folder, or a
 * throw-away one, until a signal comes.
 */
const [where] = process.argv.slice(2);
const server = await (where === 'throw-away' ? startThrowAway() : startEmbedded({ folder: where }));
process.stdout.write(`${JSON.stringify({ port: server.port })}\n`);
setInterval(() => undefined, 1000);
