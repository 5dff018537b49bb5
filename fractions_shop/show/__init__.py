"""Answers shown: sentences for people, objects for programs."""
