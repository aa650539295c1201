import type { Schema } from '../../api/client.ts';

type SecondFactor = Schema<'SecondFactor'>;

const hasFactor = ({ totpSince, passkeys }: SecondFactor): boolean =>
  totpSince !== null || passkeys > 0;

/** Who has a second factor changes nothing about it before it was shown in this session. */
export const mustShow = (factor: SecondFactor): boolean =>
  hasFactor(factor) && factor.shownAt === null;
