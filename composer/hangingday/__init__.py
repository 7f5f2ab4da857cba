"""Hanging day without a screen: what is to do next on one wall, clocks, records, and what to do when it hangs wrong.

A day is a small frozen value beside the project. What has been done stands in the project's own
record of what hangs, so a day that was left is found again from the project and the time alone.
"""
