import type { HandlersOf } from '../handler.ts';

export const JOB_HANDLERS: HandlersOf<'jobs.list' | 'jobs.stop' | 'jobs.resume'> = {
  'jobs.list': (_archive, _input, { jobs }) => jobs.list(),
  'jobs.stop': async (_archive, { id }, { jobs }) => {
    await jobs.stop(id);
    return {};
  },
  'jobs.resume': (_archive, { id }, { jobs }) => {
    jobs.resume(id);
    return {};
  },
};
