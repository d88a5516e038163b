/** Name of the error that answers what was asked of a thread that died; it survives the way out of a worker. */
const ENGINE_STOPPED = 'EngineStopped';

export const engineStopped = (message: string): Error =>
  Object.assign(new Error(message), { name: ENGINE_STOPPED });
