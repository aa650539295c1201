import { createHmac, timingSafeEqual } from 'node:crypto';

/**
 * The foreman too is shown the link of an invitation that is mailed: using it shows nothing about
 * the address. The mail's own link therefore carries a proof beside the token, which only the
 * service's key makes.
 */
export function mailedSecret(token: string, key: Uint8Array): string {
  return `${token}.${proofOf(token, key)}`;
}

interface OpenedLink {
  readonly token: string;
  /** It was read in the mail. */
  readonly mailed: boolean;
}

/** What stands behind the # of a link. */
export function openedLink(sent: string, key: Uint8Array): OpenedLink {
  const [token, proof = ''] = sent.split('.', 2);
  const [expected, given] = [Buffer.from(proofOf(token, key)), Buffer.from(proof)];
  const mailed = expected.length === given.length && timingSafeEqual(expected, given);
  return { token, mailed };
}

function proofOf(token: string, key: Uint8Array): string {
  return createHmac('sha256', key)
    .update(`curewright mailed invitation ${token}`)
    .digest('base64url');
}
