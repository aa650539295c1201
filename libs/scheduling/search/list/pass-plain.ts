import type { Pass } from './scheme.ts';
import type { Project } from './project.ts';
import type { Profile } from './profile.ts';
import type { Direction } from './scheme.ts';

/** Serial generation for a project over any profile. */
export class PlainPass implements Pass {
  private readonly project: Project;
  private readonly profile: Profile;

  constructor(project: Project, profile: Profile) {
    this.project = project;
    this.profile = profile;
  }

  run(list: Int32Array, direction: Direction, finish: Int32Array): number {
    const { profile } = this;
    const { count, duration } = this.project;
    const { first, to } = this.project.before[direction];
    profile.reset();
    let makespan = 0;
    for (let k = 0; k < count; k++) {
      const i = list[k];
      let start = 0;
      for (let p = first[i], last = first[i + 1]; p < last; p++) {
        if (finish[to[p]] > start) start = finish[to[p]];
      }
      start = profile.earliest(i, start);
      profile.take(i, start);
      finish[i] = start + duration[i];
      if (finish[i] > makespan) makespan = finish[i];
    }
    return makespan;
  }
}
