"""Tests of files that hold columns by name, and of workbooks, each written by its own library."""
