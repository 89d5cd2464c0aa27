"""What happens by itself: reminders, reports kept ready, backups.

May import store and below, sync beside it, and settings. No job runs twice at once; each can be run by hand;
each is handed its clock.
"""
