import { applyDecorators, HttpCode } from '@nestjs/common';
import { ApiResponse } from '@nestjs/swagger';
import type { z } from 'zod';
import type { Shape } from '../shapes/shape.ts';

const words = { 200: 'OK', 201: 'Made', 202: 'Taken on', 204: 'Done' };

/** The status and the shape of a handler's answer, for the caller and for the OpenAPI document. */
export function Answers<S extends z.ZodObject>(
  status: 200 | 201 | 202 | 204,
  shape?: Shape<S>,
): MethodDecorator {
  return applyDecorators(
    HttpCode(status),
    ApiResponse({ status, description: words[status], ...(shape ? { type: shape } : {}) }),
  );
}
