import { Body } from '@nestjs/common';
import { ApiBody } from '@nestjs/swagger';
import type { z } from 'zod';
import { ShapePipe } from '../../platform/shapes/input.ts';
import type { Shape } from '../../platform/shapes/shape.ts';

/** The body of a command whose fields may all be left out, and so the body itself. */
export function CommandBody<S extends z.ZodObject>(shape: Shape<S>): ParameterDecorator {
  return (target, key, index) => {
    Body(new ShapePipe(shape.schema, (sent) => sent ?? {}))(target, key, index);
    const method = key === undefined ? undefined : Object.getOwnPropertyDescriptor(target, key);
    if (method && key !== undefined) {
      ApiBody({ type: shape, required: false })(target, key, method);
    }
  };
}
