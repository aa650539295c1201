import { Module } from '@nestjs/common';
import { ProposalsModule } from '../proposals/proposals.module.ts';
import { PhotoFiles } from './photos/photo-files.ts';
import { PhotosController } from './photos/photos.controller.ts';
import { PhotosService } from './photos/photos.service.ts';
import { PhotoSweep } from './photos/photo-sweep.ts';
import { SnagDecisionsService } from './snag-decisions.service.ts';
import { SnagsController } from './snags.controller.ts';
import { SnagsResolver } from './snags.resolver.ts';
import { SnagsService } from './snags.service.ts';

@Module({
  imports: [ProposalsModule],
  controllers: [SnagsController, PhotosController],
  providers: [
    SnagsService,
    SnagDecisionsService,
    SnagsResolver,
    PhotoFiles,
    PhotosService,
    PhotoSweep,
  ],
})
export class SnagsModule {}
