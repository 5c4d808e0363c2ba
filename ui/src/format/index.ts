export * from './chance';
export * from './day';
export * from './in-tens';
export * from './isolate';
export * from './number';
export * from './units';
export * from './typed';
