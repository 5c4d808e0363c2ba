export * as words from './en/index';
