import { Field, Float, ID, Int, registerEnumType } from '@nestjs/graphql';
import { z } from 'zod';
import { id } from '#planning/yard/scalars.ts';
import { Instant } from './instant.ts';
import { asType, bare, fieldsOf } from './layers.ts';
import { capital, enumName, nameOf } from './names.ts';

export type Face = 'output' | 'input';
export type AnyClass = new () => object;
type FieldType = AnyClass | typeof Int | typeof String | typeof Boolean | object;
type Nest = (schema: z.ZodType, name: string, face: Face) => AnyClass;

const enums = new WeakMap<z.ZodType, Record<string, string>>();

/** Declares every field of `schema` on the class for GraphQL; `nest` gives the class of a nested shape. */
export function declareFields(target: AnyClass, schema: z.ZodType, face: Face, nest: Nest): void {
  for (const [key, field] of fieldsOf(schema)) {
    const { schema: plain, nullable, optional } = bare(field);
    const type = typeOf(plain, `${target.name.replace(/Input$/, '')}${capital(key)}`, face, nest);
    const mayBeNull =
      nullable || (optional && (face === 'input' || field instanceof z.ZodOptional));
    Field(() => type, { nullable: mayBeNull, ...described(plain) })(
      target.prototype as object,
      key,
    );
  }
}

function described(schema: z.ZodType): { description?: string } {
  return schema.description === undefined ? {} : { description: schema.description };
}

function typeOf(schema: z.ZodType, place: string, face: Face, nest: Nest): FieldType {
  if (schema instanceof z.ZodArray) {
    return [typeOf(bare(asType(schema.element)).schema, place, face, nest)];
  }
  if (schema instanceof z.ZodObject || schema instanceof z.ZodDiscriminatedUnion) {
    return nest(schema, nameOf(schema, place), face);
  }
  if (schema instanceof z.ZodEnum) return enumOf(schema, place);
  if (schema === id) return ID;
  if (schema instanceof z.ZodISODateTime) return Instant;
  if (schema instanceof z.ZodNumber) return schema.format?.includes('int') === true ? Int : Float;
  if (schema instanceof z.ZodBoolean) return Boolean;
  if (schema instanceof z.ZodLiteral) {
    return typeof schema.value === 'number' ? Int : String;
  }
  if (schema instanceof z.ZodString || schema instanceof z.ZodStringFormat) return String;
  throw new TypeError(`${place}: GraphQL cannot show a ${schema.type}`);
}

function enumOf(schema: z.ZodEnum, place: string): object {
  const known = enums.get(schema);
  if (known) return known;
  const values = Object.fromEntries(schema.options.map((v) => [enumName(String(v)), String(v)]));
  registerEnumType(values, { name: nameOf(schema, place) });
  enums.set(schema, values);
  return values;
}
