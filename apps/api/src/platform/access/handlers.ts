import { RequestMethod, type Type } from '@nestjs/common';
import { METHOD_METADATA, PATH_METADATA } from '@nestjs/common/constants.js';
import type { MetadataScanner } from '@nestjs/core';
import { graphqlFace, restFace } from './face.ts';

/** A method that answers calls, and a face by which it is called. */
export interface Handler {
  readonly face: string;
  readonly owner: Type;
  readonly method: string;
}

/** As `@nestjs/graphql` keeps it on methods; on the class it is the type whose fields are resolved. */
const graphqlType = 'graphql:resolver_type';
const graphqlName = 'graphql:resolver_name';
const ofFields = 'graphql:resolve_property';

/** Every handler of the classes: routes, fields of GraphQL's roots, fields with a resolver. */
export function handlersOf(classes: Iterable<Type>, scanner: MetadataScanner): Handler[] {
  return [...new Set(classes)].flatMap((owner) => {
    const prototype: unknown = owner.prototype;
    if (typeof prototype !== 'object' || prototype === null) return [];
    return scanner.getAllMethodNames(prototype).flatMap((method) => {
      const handler: unknown = Reflect.get(prototype, method);
      if (typeof handler !== 'function') return [];
      const faces = [...restFaces(owner, handler), ...graphqlFaces(owner, handler, method)];
      return faces.map((face) => ({ face, owner, method }));
    });
  });
}

function restFaces(owner: object, handler: object): string[] {
  const method: unknown = Reflect.getMetadata(METHOD_METADATA, handler);
  if (typeof method !== 'number') return [];
  return pathsOf(owner).flatMap((prefix) =>
    pathsOf(handler).map((path) => {
      const route = [prefix, path].flatMap((part) => part.split('/')).filter((part) => part !== '');
      return restFace(RequestMethod[method] ?? 'ANY', `/api/v1/${route.join('/')}`);
    }),
  );
}

function pathsOf(of: object): string[] {
  const paths: unknown = Reflect.getMetadata(PATH_METADATA, of);
  return (Array.isArray(paths) ? paths : [paths]).map((path) =>
    typeof path === 'string' ? path : '',
  );
}

function graphqlFaces(owner: object, handler: object, method: string): string[] {
  const type: unknown =
    Reflect.getMetadata(graphqlType, handler) ??
    (Reflect.hasMetadata(ofFields, handler) ? Reflect.getMetadata(graphqlType, owner) : undefined);
  if (typeof type !== 'string') return [];
  const name: unknown = Reflect.getMetadata(graphqlName, handler);
  return [graphqlFace(type, typeof name === 'string' ? name : method)];
}
