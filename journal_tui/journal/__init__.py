"""The one service behind the screens and the command line: a module for each use."""
