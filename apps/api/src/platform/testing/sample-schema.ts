import { Logger } from '@nestjs/common';
import { NestFactory } from '@nestjs/core';
import {
  Args,
  GraphQLSchemaBuilderModule,
  GraphQLSchemaFactory,
  Query,
  Resolver,
} from '@nestjs/graphql';
import type { GraphQLSchema } from 'graphql';

type Class = new () => object;

/** A schema of one query that takes `input` and answers `output`. */
export async function sampleSchema(output: Class, input: Class): Promise<GraphQLSchema> {
  @Resolver()
  class SampleResolver {
    @Query(() => output)
    sample(@Args('input', { type: () => input }) sent: object): object {
      return sent;
    }
  }
  Logger.overrideLogger(false);
  const builder = await NestFactory.createApplicationContext(GraphQLSchemaBuilderModule);
  try {
    return await builder.get(GraphQLSchemaFactory).create([SampleResolver]);
  } finally {
    await builder.close();
  }
}
