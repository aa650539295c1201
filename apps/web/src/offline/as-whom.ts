let proof = '';

/**
 * By which session what waits is sent from now on. Signs somebody else in meanwhile, the service
 * refuses it for this proof: nothing is ever done in another's name. One sends at a time.
 */
export function sendAs(csrf: string | null): void {
  proof = csrf ?? '';
}

export const asWhom = (): { readonly 'x-csrf-token': string } => ({ 'x-csrf-token': proof });
