import { DomainError } from '#kernel/error.ts';

/** Place and value of the fault that reading ends with; for tests. Throws where there is none. */
export function faultOf(read: () => unknown): [string, unknown] {
  try {
    read();
  } catch (error) {
    if (!(error instanceof DomainError) || error.code !== 'input.malformed') throw error;
    const [found] = error.faults;
    if (found.cure === '' || !error.message.includes(found.path)) {
      throw new Error(`the fault does not say what to do: ${error.message}`, { cause: error });
    }
    return [found.path, found.value];
  }
  throw new Error('no fault was found');
}
