import { mount } from 'svelte';
import './app.css';
import App from './App.svelte';
import { keepApp } from './stores/kept-app';

const target = document.getElementById('app');
if (!target) throw new Error('the page has no place for the app');
mount(App, { target });
if (import.meta.env.PROD) keepApp();
