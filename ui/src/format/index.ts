export * from './chance';
export * from './day';
export * from './isolate';
export * from './number';
export * from './units';
export * from './typed';
