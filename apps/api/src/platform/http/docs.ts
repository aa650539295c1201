import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { DocumentBuilder, type OpenAPIObject, SwaggerModule } from '@nestjs/swagger';
import { componentSchemas } from '../shapes/openapi.ts';

/** The OpenAPI 3.1 document: addresses from the controllers, shapes from their one declaration. */
function openApiDocument(app: NestFastifyApplication): OpenAPIObject {
  const config = new DocumentBuilder()
    .setOpenAPIVersion('3.1.0')
    .setTitle('Curewright')
    .setDescription('Plans the refit of composite boats around cure windows and crew hours.')
    .setVersion('1')
    .addBearerAuth({
      type: 'http',
      scheme: 'bearer',
      description: 'The token of POST /api/v1/sessions.',
    })
    .addSecurityRequirements('bearer')
    .build();
  const document = SwaggerModule.createDocument(app, config, { operationIdFactory });
  document.components = {
    ...document.components,
    schemas: { ...document.components?.schemas, ...componentSchemas(), Problem: problemSchema },
  };
  for (const path of Object.values(document.paths)) {
    for (const operation of [path.get, path.post, path.put, path.patch, path.delete]) {
      if (operation) operation.responses['default'] = problemResponse;
    }
  }
  return document;
}

/** Serves it at /api/v1/openapi.json, and a page to browse it whose assets come from here too. */
export function serveDocs(app: NestFastifyApplication): void {
  SwaggerModule.setup('api/v1/docs', app, () => openApiDocument(app), {
    jsonDocumentUrl: 'api/v1/openapi.json',
    customSiteTitle: 'Curewright API',
    raw: ['json'],
  });
}

/** `spaces_list`: the concept and what is done with it. */
function operationIdFactory(controller: string, method: string): string {
  return `${controller.replace(/Controller$/, '').toLowerCase()}_${method}`;
}

const problemResponse = {
  description: 'A problem (RFC 9457)',
  content: { 'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } } },
};

const text = { type: 'string' as const };

const problemSchema = {
  type: 'object' as const,
  required: ['type', 'title', 'status', 'detail', 'code', 'cure', 'errors'],
  properties: {
    type: text,
    title: text,
    status: { type: 'integer' as const },
    detail: text,
    instance: text,
    code: { ...text, description: 'From the catalogue of errors; stable.' },
    cure: { ...text, description: 'What to do about it.' },
    errors: {
      type: 'array' as const,
      items: {
        type: 'object' as const,
        required: ['code', 'path', 'message', 'cure'],
        properties: { code: text, path: text, value: {}, message: text, cure: text },
      },
    },
  },
};
