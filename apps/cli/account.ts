/** `npm run account`: accounts for whoever runs the service. See `account/arguments.ts` for its words. */
import { runAccount } from './account/run.ts';

const { code, stdout, stderr } = await runAccount(process.argv.slice(2), process.env);
process.stdout.write(stdout);
process.stderr.write(stderr);
process.exitCode = code;
