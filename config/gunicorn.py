"""The production server: `gunicorn --config config/gunicorn.py`. Secrets: see config/settings/prod.py."""

import multiprocessing
import os
from pathlib import Path

wsgi_app = "config.wsgi"
bind = os.environ.get("BIND", "127.0.0.1:8000")
workers = int(os.environ.get("WORKERS", multiprocessing.cpu_count() + 1))
threads = 4  # as many as the connection pool of a process holds
preload_app = True  # settings that can't be used stop the start, with their message, not each worker
timeout = 30
max_requests = 2000  # a worker is renewed now and then …
max_requests_jitter = 200  # … but not all at once
worker_tmp_dir = "/dev/shm" if Path("/dev/shm").is_dir() else None  # heartbeats never wait for a disk
control_socket_disable = True  # signals are enough; no socket in a home folder that may not exist
