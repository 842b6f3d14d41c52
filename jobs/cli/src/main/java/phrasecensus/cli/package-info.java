/** The command line: one class a command, exit codes, and the wiring of everything else. */
package phrasecensus.cli;
