/// <reference types="vite/client" />
declare const __STICK__: boolean;
