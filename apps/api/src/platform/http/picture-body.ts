import { RouteConfig } from '@nestjs/platform-fastify';
import type { FastifyInstance } from 'fastify';

/** Bytes that a picture may have. */
const pictureBody = 15 * 1024 * 1024;

/** Declares a handler whose body is a picture, of whatever type it is sent as: it says what it takes. */
export const PictureBody = (): MethodDecorator =>
  RouteConfig({ bodyLimit: pictureBody, takesPicture: true });

/** Anything but JSON arrives as bytes where a picture is taken, and is not understood elsewhere. */
export function readPictures(fastify: FastifyInstance): void {
  fastify.addContentTypeParser('*', { parseAs: 'buffer' }, (request, body, done) => {
    const { config } = request.routeOptions;
    if (Reflect.get(config, 'takesPicture') === true) done(null, body);
    else
      done(
        Object.assign(new Error('not JSON'), {
          code: 'FST_ERR_CTP_INVALID_MEDIA_TYPE',
          statusCode: 415,
        }),
      );
  });
}
