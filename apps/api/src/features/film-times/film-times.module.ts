import { Module } from '@nestjs/common';
import { FilmTimesController } from './film-times.controller.ts';
import { FilmTimesResolver } from './film-times.resolver.ts';
import { FilmTimesService } from './film-times.service.ts';

@Module({
  controllers: [FilmTimesController],
  providers: [FilmTimesService, FilmTimesResolver],
  exports: [FilmTimesService],
})
export class FilmTimesModule {}
