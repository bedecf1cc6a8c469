# SPDX-License-Identifier: Apache-2.0
"""Calls the stages; alone repeats one."""
