export * from './shell';
export * from './terms';
export * from './situation';
export * from './plan';
export * from './mix';
export * from './checks';
export * from './animals';
export * from './about';
