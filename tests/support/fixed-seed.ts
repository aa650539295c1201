/**
 * Generated cases are the same in every run, so that a failure is of the change and not of the
 * day. `FAST_CHECK_SEED=n npm test -- laws` looks for others.
 */
import fc from 'fast-check';

fc.configureGlobal({ seed: Number(process.env['FAST_CHECK_SEED'] ?? 20261125) });
