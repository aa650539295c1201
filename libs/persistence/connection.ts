import { Client, type ClientConfig } from 'pg';

/**
 * What pools are made of. A server may let a connection in and end it in one breath, before whoever
 * asked for it can listen to it: the error would end the program. It is told to the next query.
 */
export class Connection extends Client {
  constructor(config?: string | ClientConfig) {
    super(config);
    this.on('error', () => undefined);
  }
}
