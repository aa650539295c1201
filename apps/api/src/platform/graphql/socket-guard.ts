import { Logger } from '@nestjs/common';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import { DomainError } from '#kernel/error.ts';
import { bearerOf } from '../access/token.ts';
import { addressOf } from '../http/address.ts';
import { requestSource } from '../http/count-requests.ts';
import { usualBody } from '../http/json-body.ts';
import { assertStorable } from '../http/storable.ts';
import type { OpenStreams } from '../limits/open-streams.ts';
import type { RequestLimits } from '../limits/request-limits.ts';
import { formatErrors, graphqlError } from './graphql-error.ts';
import { subscriptionFaults } from './query-limits.ts';
import { closing, type Message, messageSchema, protocol } from './socket-message.ts';

/** As much of a WebSocket of the library `ws` as is used here. */
interface Socket {
  readonly protocol: string;
  emit(event: string, ...args: unknown[]): boolean;
  send(text: string, ...rest: unknown[]): void;
  on(event: 'close' | 'pong', heard: () => void): void;
  close(code: number, reason: string): void;
  ping(): void;
  terminate(): void;
}

/** A client says `connection_init` at once, or it is none. */
const initMs = 5_000;
/** Whoever does not answer a ping until the next one is gone. */
const pingMs = 30_000;
const mostSubscriptions = 20;
/** Of any kind, within one ping. */
const mostMessages = 200;

const log = new Logger('sockets');

interface Limits {
  readonly requests: RequestLimits;
  readonly streams: OpenStreams;
  readonly isSecure: boolean;
  readonly introspection: boolean;
}

/**
 * Stands between every socket and mercurius, which takes what a client says as it comes: it would
 * run subscriptions that do not fit the schema, as many as are asked for, and answer with the
 * words of whatever error.
 */
export function guardSockets(fastify: FastifyInstance, limits: Limits): void {
  fastify.addHook('onRoute', (route) => {
    const handler: unknown = Reflect.get(route, 'wsHandler');
    if (typeof handler !== 'function') return;
    Reflect.set(
      route,
      'wsHandler',
      function (this: unknown, socket: Socket, request: FastifyRequest) {
        if (socket.protocol !== protocol) {
          socket.close(...closing.unspoken);
          return undefined;
        }
        new Conversation(socket, request, limits).begin();
        return Reflect.apply(handler, this, [socket, request]) as unknown;
      },
    );
  });
}

class Conversation {
  readonly #running = new Set<string>();
  #token: string | undefined;
  #isReady = false;
  #messages = 0;
  #isAlive = true;
  /** What comes is judged in its order, though counting takes a moment. */
  #last = Promise.resolve();

  constructor(
    private readonly socket: Socket,
    private readonly request: FastifyRequest,
    private readonly limits: Limits,
  ) {
    this.#token = requestSource(request, limits.isSecure).token;
  }

  begin(): void {
    const { socket } = this;
    const hear = socket.emit.bind(socket);
    socket.emit = (event, ...args) => {
      if (event !== 'message') return hear(event, ...args);
      this.#last = this.#last.then(async () => {
        if (await this.#passes(args[0])) hear(event, ...args);
      });
      return true;
    };
    const tell = socket.send.bind(socket);
    socket.send = (text, ...rest) => {
      tell(this.#told(text), ...rest);
    };
    this.#watch();
  }

  #watch(): void {
    const { socket } = this;
    const late = setTimeout(() => {
      if (!this.#isReady) socket.close(...closing.late);
    }, initMs);
    const beat = setInterval(() => {
      if (!this.#isAlive) socket.terminate();
      this.#isAlive = false;
      this.#messages = 0;
      socket.ping();
    }, pingMs);
    socket.on('pong', () => {
      this.#isAlive = true;
    });
    socket.on('close', () => {
      clearTimeout(late);
      clearInterval(beat);
    });
    try {
      socket.on('close', this.limits.streams.open(addressOf(this.request)));
    } catch {
      socket.close(...closing.full);
    }
  }

  async #passes(data: unknown): Promise<boolean> {
    const message = this.#read(data);
    switch (message?.type) {
      case undefined:
        return false;
      case 'connection_init':
        return this.#mayBegin(message);
      case 'subscribe':
        return this.#maySubscribe(message);
      case 'complete':
        this.#running.delete(message.id);
        return true;
      default:
        return true;
    }
  }

  /** Undefined: it cannot be read, and the socket is closed. */
  #read(data: unknown): Message | undefined {
    this.#messages += 1;
    const text = Buffer.isBuffer(data) ? data.toString() : '';
    if (this.#messages > mostMessages) this.#end('tooMany');
    else if (text.length > usualBody) this.#end('tooLarge');
    else {
      try {
        return messageSchema.parse(JSON.parse(text));
      } catch {
        this.#end('invalid');
      }
    }
    return undefined;
  }

  #mayBegin({ payload }: Extract<Message, { type: 'connection_init' }>): boolean {
    if (this.#isReady) {
      this.#end('repeated');
      return false;
    }
    this.#isReady = true;
    this.#token = bearerOf(payload?.['authorization'])?.token ?? this.#token;
    return true;
  }

  async #maySubscribe({ id, payload }: Extract<Message, { type: 'subscribe' }>): Promise<boolean> {
    if (!this.#isReady || this.#running.has(id)) {
      this.#end(this.#isReady ? 'taken' : 'unready');
      return false;
    }
    const refused = await this.#refusal(payload);
    if (refused !== null) {
      this.socket.send(JSON.stringify({ type: 'error', id, payload: refused }));
      return false;
    }
    this.#running.add(id);
    return true;
  }

  async #refusal(payload: Extract<Message, { type: 'subscribe' }>['payload']): Promise<unknown> {
    const { requests, introspection } = this.limits;
    try {
      await requests.count({ address: addressOf(this.request), token: this.#token });
      if (this.#running.size >= mostSubscriptions) throw tooMany();
      assertStorable(payload);
      const { schema } = this.request.server.graphql;
      const errors = subscriptionFaults(schema, payload, introspection);
      return errors.length === 0
        ? null
        : formatErrors({ errors }, { introspection }).response.errors;
    } catch (error) {
      return [graphqlError(error)];
    }
  }

  /** What mercurius says, its own errors put into our words. */
  #told(text: string): string {
    const isEnd = text.startsWith('{"type":"error"') || text.startsWith('{"type":"complete"');
    if (!isEnd) return text;
    const { id, type, payload } = JSON.parse(text) as Record<'id' | 'type' | 'payload', unknown>;
    if (typeof id === 'string') this.#running.delete(id);
    if (type === 'complete') return text;
    const errors = (Array.isArray(payload) ? payload : [payload]) as unknown[];
    return JSON.stringify({ type, id, payload: errors.map(inOurWords) });
  }

  #end(why: keyof typeof closing): void {
    const [code, reason] = closing[why];
    log.debug(`${addressOf(this.request)}: ${reason}`);
    this.socket.close(code, reason);
  }
}

function inOurWords(error: unknown): unknown {
  const extensions: unknown =
    typeof error === 'object' && error !== null ? Reflect.get(error, 'extensions') : undefined;
  const isOurs = typeof extensions === 'object' && extensions !== null && 'cure' in extensions;
  return isOurs ? error : graphqlError(new Error(`a socket was told ${JSON.stringify(error)}`));
}

const tooMany = (): DomainError =>
  new DomainError('input.limit', `${String(mostSubscriptions)} subscriptions run on this socket.`, {
    cure: 'End one, or open another socket.',
  });
