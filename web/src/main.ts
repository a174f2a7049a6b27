// SPDX-License-Identifier: Apache-2.0
// The page's first step: theme before anything is drawn, then the application.
import '@fontsource-variable/atkinson-hyperlegible-next/wght.css';
import '@fontsource-variable/atkinson-hyperlegible-mono/wght.css';
import './ui/tokens.css';
import './ui/base.css';
import './ui/field.css';
import './ui/notes.css';
import { mount } from 'svelte';
import App from './App.svelte';
import { applyTheme } from './ui/theme.svelte';

applyTheme();
const target = document.getElementById('page');
if (!target) throw new Error('The page has no place to draw into.');
mount(App, { target });
