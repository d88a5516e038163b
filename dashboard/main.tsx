import { render } from 'solid-js/web';
import { App } from './App.tsx';
import { connectAnalyst } from './client/connect.ts';
// Last, so that print has the last word over every view's own style.
import './print.css';

const page = document.getElementById('page');
if (!page) throw new Error('index.html has no #page');
const analyst = connectAnalyst();
render(() => <App analyst={analyst} />, page);
