import { Controller, Delete, Get, Param, Post, Req, Res, StreamableFile } from '@nestjs/common';
import { ApiBody, ApiConsumes, ApiProduces } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { By } from '../../../platform/access/caller.ts';
import type { Viewer } from '../../../platform/access/viewer.ts';
import { Answers } from '../../../platform/http/answers.ts';
import { PictureBody } from '../../../platform/http/picture-body.ts';
import { QueryOf } from '../../../platform/shapes/input.ts';
import { PhotoQuery, SnagPhoto } from '../snags.contract.ts';
import { PhotosService } from './photos.service.ts';
import { mediaTypes } from './picture.ts';

@Controller('yards/:yardId')
export class PhotosController {
  constructor(private readonly photos: PhotosService) {}

  /** The picture itself is the body; what a camera writes into it besides is not kept. */
  @Post('snags/:id/photos')
  @PictureBody()
  @ApiConsumes(...mediaTypes)
  @ApiBody({ schema: { type: 'string', format: 'binary' } })
  @Answers(201, SnagPhoto)
  add(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @Req() request: FastifyRequest,
  ): Promise<SnagPhoto> {
    return this.photos.add(viewer, id, request.body, request.headers['content-type']);
  }

  /** A photo never changes, so whoever has it need not ask again; proxies do not keep it. */
  @Get('photos/:id')
  @ApiProduces(...mediaTypes)
  @Answers(200)
  async get(
    @By() viewer: Viewer,
    @Param('id') id: string,
    @QueryOf(PhotoQuery) { size }: PhotoQuery,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<StreamableFile> {
    const { photo, bytes } = await this.photos.read(viewer, id, size ?? 'whole');
    void reply.header('cache-control', 'private, max-age=86400, immutable');
    void reply.header('content-security-policy', "default-src 'none'; sandbox");
    return new StreamableFile(bytes, {
      type: photo.mediaType,
      length: bytes.length,
      disposition: 'inline',
    });
  }

  @Delete('photos/:id')
  @Answers(204)
  remove(@By() viewer: Viewer, @Param('id') id: string): Promise<void> {
    return this.photos.remove(viewer, id);
  }
}
