import { render } from 'solid-js/web';
import { App } from './App.tsx';
import { connectAnalyst } from './client/connect.ts';
import { resumeWorkspace } from './state/keeping.ts';
// Last, so that print has the last word over every view's own style.
import './print.css';

const page = document.getElementById('page');
if (!page) throw new Error('index.html has no #page');
// The engine starts while the browser looks up what was open last.
const analyst = connectAnalyst();
const resumed = await resumeWorkspace();
render(() => <App analyst={analyst} resumed={resumed} />, page);
