import { mount } from 'svelte';
import './page.css';
import App from './App.svelte';

const target = document.getElementById('page');
if (target) mount(App, { target });
